import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** A file of this package, found from wherever this code runs: from its source or from the built bundle. */
export function packageFile(path: string): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, path))) {
    const parent = dirname(folder);
    if (parent === folder) return path;
    folder = parent;
  }
  return join(folder, path);
}
