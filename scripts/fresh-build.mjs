import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const built = `${root}dist/cli/kilter.js`;
const madeFrom = ["src", "catalog", "package.json", "package-lock.json", "vite.config.ts"];

/** The built command line, made anew first where it is missing or older than anything it is made from. */
export function freshBuild() {
  if (isFresh()) return built;
  console.log("Building the command line");
  const { status } = spawnSync(
    process.execPath,
    [`${root}node_modules/vite/bin/vite.js`, "build", "--logLevel", "warn"],
    {
      cwd: root,
      stdio: "inherit",
    },
  );
  if (status !== 0) process.exit(status ?? 1);
  return built;
}

function isFresh() {
  if (!existsSync(built)) return false;
  const builtMs = statSync(built).mtimeMs;
  return madeFrom.every((name) => newestMs(`${root}${name}`) < builtMs);
}

/** A folder's own time counts too: it is the only trace of a file that was taken away. */
function newestMs(path) {
  const found = statSync(path);
  if (!found.isDirectory()) return found.mtimeMs;
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestMs(`${path}/${name}`)), found.mtimeMs);
}
