import { readdirSync, readFileSync } from "node:fs";
import { dirname, posix } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";

export const root = fileURLToPath(new URL("../../", import.meta.url));

/** What git ignores, and git itself. */
const notOurs = new Set([".git", "node_modules", "dist", ".cache", "coverage", "kilter-demonstration"]);

/** Every file of the project, by its path from the root with forward slashes. */
export function projectFiles(under = ""): readonly string[] {
  return readdirSync(`${root}${under}`, { withFileTypes: true })
    .filter(({ name }) => !notOurs.has(name) && !name.includes("-changed."))
    .flatMap((entry) => {
      const path = under === "" ? entry.name : `${under}/${entry.name}`;
      return entry.isDirectory() ? projectFiles(path) : [path];
    })
    .sort();
}

export function textOf(path: string): string {
  return readFileSync(`${root}${path}`, "utf8");
}

export function isCode(path: string): boolean {
  return /\.(tsx?|mjs)$/.test(path);
}

export interface Import {
  readonly from: string;
  /** A path from the root, or the name of a package without what is asked for inside it. */
  readonly to: string;
  readonly isPackage: boolean;
}

/** All imports of a file: of values and of types, static and dynamic, and re-exports. */
export function importsOf(path: string): readonly Import[] {
  return ts
    .preProcessFile(textOf(path), true, true)
    .importedFiles.map(({ fileName }) =>
      fileName.startsWith(".")
        ? { from: path, to: posix.join(dirname(path), fileName), isPackage: false }
        : { from: path, to: packageName(fileName), isPackage: true },
    );
}

function packageName(specifier: string): string {
  const parts = specifier.split("/");
  return specifier.startsWith("@") ? parts.slice(0, 2).join("/") : parts[0];
}

/** The first cycle that is found, as the way round; null where there is none. */
export function cycleIn(edges: ReadonlyMap<string, ReadonlySet<string>>): readonly string[] | null {
  const done = new Set<string>();
  const way: string[] = [];
  const visit = (node: string): readonly string[] | null => {
    if (way.includes(node)) return [...way.slice(way.indexOf(node)), node];
    if (done.has(node)) return null;
    way.push(node);
    for (const next of edges.get(node) ?? []) {
      const found = visit(next);
      if (found) return found;
    }
    way.pop();
    done.add(node);
    return null;
  };
  for (const node of edges.keys()) {
    const found = visit(node);
    if (found) return found;
  }
  return null;
}
