import { writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { cycleIn, type Import, importsOf, isCode, projectFiles, root, textOf } from "./project-files.ts";

interface Folder {
  readonly folder: string;
  readonly holds: string;
  readonly mayUse: readonly string[];
  readonly packages: readonly string[];
}

const { folders }: { readonly folders: readonly Folder[] } = JSON.parse(textOf("tests/architecture/layers.json"));
const code = projectFiles().filter((path) => isCode(path) && path.includes("/"));
const imports = code.flatMap(importsOf);

/** The folder that a file counts with; tests beside the sources count with tests. */
function folderOf(path: string): string {
  const parts = path.split("/");
  if (path.endsWith(".test.ts")) return "tests";
  // Simulated machines serve tests, benches and scripts alike.
  if (path.startsWith("tests/simulation/")) return "tests/simulation";
  if (parts[0] !== "src") return parts[0];
  return parts[1] === "core" ? `core/${parts[2]}` : parts[1];
}

function rule(folder: string): Folder | undefined {
  return folders.find((candidate) => candidate.folder === folder);
}

function mayUse(from: string, to: string): boolean {
  const { mayUse: allowed } = rule(from) as Folder;
  return from === to || allowed.includes(to) || (to.startsWith("core/") && allowed.includes("core/*"));
}

function edges(list: readonly Import[], name: (path: string) => string): Map<string, Set<string>> {
  const out = new Map<string, Set<string>>();
  for (const { from, to, isPackage } of list) {
    if (isPackage || name(from) === name(to)) continue;
    out.set(name(from), (out.get(name(from)) ?? new Set()).add(name(to)));
  }
  return out;
}

describe("layers.json", () => {
  it("lists every folder that holds code, and no folder that is not there", () => {
    const found = new Set(
      projectFiles()
        .filter((path) => isCode(path) && path.includes("/"))
        .map(folderOf),
    );
    found.add("catalog");
    expect([...found].sort()).toEqual(folders.map(({ folder }) => folder).sort());
  });

  it("lets a folder use only folders above it in the list, so that no cycle can be allowed", () => {
    folders.forEach(({ folder, mayUse: allowed }, index) => {
      const above = new Set([...folders.slice(0, index).map((earlier) => earlier.folder), "core/*"]);
      expect(
        allowed.filter((name) => !above.has(name)),
        folder,
      ).toEqual([]);
    });
  });

  it("allows every import between folders that there is", () => {
    const forbidden = imports
      .filter(({ from, to, isPackage }) => !isPackage && !mayUse(folderOf(from), folderOf(to)))
      .map(({ from, to }) => `${from} → ${to}`);
    expect(forbidden).toEqual([]);
  });

  it("allows every package that is used, where it is used", () => {
    const forbidden = imports
      .filter(({ from, to, isPackage }) => isPackage && !(rule(folderOf(from)) as Folder).packages.includes(to))
      .map(({ from, to }) => `${from} → ${to}`);
    expect(forbidden).toEqual([]);
  });

  it("allows the core no package of Node", () => {
    const core = folders.filter(({ folder }) => folder.startsWith("core/")).flatMap(({ packages }) => packages);
    expect(core.filter((name) => name.startsWith("node:"))).toEqual([]);
  });

  it("names no package that package.json does not", () => {
    const { dependencies, devDependencies } = JSON.parse(textOf("package.json"));
    const known = new Set(Object.keys({ ...dependencies, ...devDependencies }));
    const named = folders.flatMap(({ packages }) => packages).filter((name) => !name.startsWith("node:"));
    expect(named.filter((name) => !known.has(name))).toEqual([]);
  });
});

describe("imports", () => {
  it("make no cycle between folders", () => {
    const sources = imports.filter(({ from }) => folderOf(from) !== "tests");
    expect(cycleIn(edges(sources, folderOf))).toBeNull();
  });

  it("make no cycle between files", () => {
    expect(cycleIn(edges(imports, (path) => path))).toBeNull();
  });

  it("make a cycle that is found, where one is put in", () => {
    const withCycle = new Map([
      ["a", new Set(["b"])],
      ["b", new Set(["c", "d"])],
      ["d", new Set(["b"])],
    ]);
    expect(cycleIn(withCycle)).toEqual(["b", "d", "b"]);
  });
});

describe("ARCHITECTURE.md", () => {
  it("has the map that follows from layers.json", () => {
    const [begin, end] = ["<!-- map: made from tests/architecture/layers.json -->", "<!-- end of map -->"];
    const before = textOf("ARCHITECTURE.md");
    const [head, rest] = [before.slice(0, before.indexOf(begin)), before.slice(before.indexOf(end))];
    const after = `${head}${begin}\n${map()}\n${rest}`;
    if (after !== before && !process.env.CI) writeFileSync(`${root}ARCHITECTURE.md`, after);
    expect(process.env.CI ? before : textOf("ARCHITECTURE.md")).toBe(after);
  });

  it("has at most 200 lines", () => {
    expect(textOf("ARCHITECTURE.md").split("\n").length).toBeLessThanOrEqual(200);
  });
});

/** Folders from the bottom up, with what each may use: of the core only the last part of the name. */
function map(): string {
  const short = (name: string) => name.replace(/^core\/(?!\*)/, "");
  const lines = folders.map(({ folder, holds, mayUse: allowed, packages }) => {
    const foreign = packages.filter((name) => !name.startsWith("node:"));
    const stdlib = foreign.filter((name) => name.startsWith("@stdlib/"));
    const others = foreign.filter((name) => !name.startsWith("@stdlib/"));
    const used = [...(stdlib.length > 0 ? ["@stdlib/stats-base-dists-*"] : []), ...others];
    const path = folder.startsWith("core/") || ["logbook", "app", "cli"].includes(folder) ? `src/${folder}` : folder;
    return `| \`${path}\` | ${holds} | ${allowed.map(short).join(", ") || "–"} | ${used.join(", ") || "–"} |`;
  });
  return ["| Folder | Holds | May use | Packages |", "| --- | --- | --- | --- |", ...lines].join("\n");
}
