import { basename, extname } from "node:path";
import { describe, expect, it } from "vitest";
import { isCode, projectFiles, textOf } from "./project-files.ts";

const files = projectFiles();
const core = files.filter((path) => path.startsWith("src/core/") && isCode(path) && !path.endsWith(".test.ts"));
/** Written by people, so that a rule about words applies. */
const prose = files.filter((path) => isCode(path) || /\.(md|json|jsonl|yml|svg)$/.test(path) || path === ".ci/run");

/** Places where a pattern stands, as file and line. */
function placesOf(pattern: RegExp, paths: readonly string[]): readonly string[] {
  return paths.flatMap((path) =>
    textOf(path)
      .split("\n")
      .flatMap((line, index) => (pattern.test(line) ? [`${path}:${index + 1}: ${line.trim()}`] : [])),
  );
}

describe("the core", () => {
  it("asks neither a clock nor chance that was not seeded", () => {
    const found = placesOf(/\bMath\.random\b|\bDate\.now\b|\bnew Date\(|\bperformance\.now\b|\bcrypto\./, core);
    expect(found).toEqual([]);
  });

  it("names no entry of the catalogue, only families", () => {
    const entries = files
      .filter((path) => /^catalog\/(instruments|objects)\/.*\.json$/.test(path))
      .map((path) => JSON.parse(textOf(path)) as { readonly id: string; readonly family: string });
    expect(entries.length).toBeGreaterThan(20);
    const families = new Set(entries.map(({ family }) => family));
    const ids = entries.map(({ id }) => id).filter((id) => !families.has(id));
    const literal = new RegExp(`["'\`](${ids.map((id) => id.replaceAll(".", "\\.")).join("|")})["'\`]`);
    expect(placesOf(literal, core)).toEqual([]);
  });

  it("is compiled without the types of Node and of a browser", () => {
    const { compilerOptions } = JSON.parse(textOf("src/core/tsconfig.json"));
    expect(compilerOptions).toMatchObject({ lib: ["ES2022"], types: [] });
  });
});

describe("files", () => {
  it("of the sources have at most 600 lines", () => {
    const long = files.filter((path) => path.startsWith("src/") && textOf(path).split("\n").length > 601);
    expect(long).toEqual([]);
  });

  it("of code are named in kebab-case, by what they are about", () => {
    const kebab = /^[a-z0-9]+(-[a-z0-9]+)*(\.test|\.config)?$/;
    const says = /(^|-)(utils?|helpers?|managers?|services?|common|misc)(-|$)/;
    const code = files.filter(isCode);
    const odd = code.filter((path) => {
      const folders = path.split("/").slice(0, -1);
      const name = basename(path, extname(path));
      return [...folders, name].some((part) => !kebab.test(part) || says.test(part));
    });
    expect(odd).toEqual([]);
  });

  it("export by name only", () => {
    const sources = files.filter((path) => path.startsWith("src/") && isCode(path));
    expect(placesOf(/^export default\b/, sources)).toEqual([]);
  });

  it("name no document that is not in the project", () => {
    const names = new Set(files.map((path) => basename(path)));
    const unknown = prose.flatMap((path) =>
      [...textOf(path).matchAll(/[\w-]+\.md\b/g)]
        .filter(([name]) => !names.has(name))
        .map(([name]) => `${path}: ${name}`),
    );
    expect(unknown).toEqual([]);
  });

  it("link only to what is there", () => {
    const documents = files.filter((path) => path.endsWith(".md"));
    const all = new Set(
      files.flatMap((path) => [path, ...path.split("/").map((_, i, parts) => parts.slice(0, i).join("/"))]),
    );
    const dead = documents.flatMap((path) =>
      [...textOf(path).matchAll(/\]\(([^)#\s]+)(#[^)]*)?\)/g)]
        .map(([, target]) => target)
        .filter((target) => !/^[a-z]+:/.test(target) && !all.has(resolved(path, target)))
        .map((target) => `${path} → ${target}`),
    );
    expect(dead).toEqual([]);
  });
});

describe("the packages", () => {
  it("come from whichever registry npm is set to: no host is written down", () => {
    // In pieces, so that this file does not hold what it forbids.
    const hosts = new RegExp(
      ["registry", "\\.npm", "|", "npm", "js\\.(org|com)", "|", "yarn", "pkg\\.com", "|", "jsr", "\\.io"].join(""),
    );
    const texts = [...prose, "package-lock.json", ".npmrc"].filter((path) => files.includes(path));
    expect(placesOf(hosts, texts)).toEqual([]);
  });

  it("stand in the lock file without the place they were fetched from", () => {
    expect(textOf("package-lock.json")).not.toContain('"resolved"');
  });

  it("are asked for by exact version", () => {
    const { dependencies, devDependencies } = JSON.parse(textOf("package.json"));
    const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(
      ([, version]) => !/^\d+\.\d+\.\d+$/.test(String(version)),
    );
    expect(loose).toEqual([]);
  });
});

/** A link's target as a path from the root. */
function resolved(document: string, target: string): string {
  const parts = document.split("/").slice(0, -1);
  for (const part of target.replace(/\/$/, "").split("/")) {
    if (part === "..") parts.pop();
    else if (part !== ".") parts.push(part);
  }
  return parts.join("/");
}
