import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, utimesSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const commandLine = { words: "the command line", folder: "dist/cli", file: "kilter.js", config: "vite.config.ts" };
const page = { words: "the page", folder: "dist/web", file: "index.html", config: "vite-web.config.ts" };
const madeFrom = ["src", "catalog", "package.json", "package-lock.json"];

/** The built command line, with the page beside it: each made anew first where it is missing or older than its sources. */
export async function freshBuild() {
  const stale = [commandLine, page].filter((part) => !isFresh(part));
  if (stale.length > 0) {
    console.log(`Building ${stale.map(({ words }) => words).join(" and ")}`);
    // Whoever starts the program has no use for a builder's warnings.
    await build(stale, "error");
  }
  return `${root}${commandLine.folder}/${commandLine.file}`;
}

/** Builds both, whether or not it is needed. */
export function buildAll() {
  return build([commandLine, page], "warn");
}

/** Side by side; ends the process where one of them fails. */
async function build(parts, logLevel) {
  const startedS = Date.now() / 1000;
  const statuses = await Promise.all(
    parts.map(async (part) => {
      const made = `${root}.cache/build-${process.pid}/${part.folder}`;
      const args = ["build", "-c", part.config, "--outDir", made, "--emptyOutDir", "--logLevel", logLevel];
      const status = await run(`${root}node_modules/vite/bin/vite.js`, args);
      if (status !== 0) return status;
      // What is saved while this goes on is newer than what comes of it.
      utimesSync(`${made}/${part.file}`, startedS, startedS);
      putInPlace(made, `${root}${part.folder}`);
      return 0;
    }),
  );
  rmSync(`${root}.cache/build-${process.pid}`, { recursive: true, force: true });
  const failed = statuses.find((status) => status !== 0);
  if (failed !== undefined) process.exit(failed);
}

function run(script, args) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [script, ...args], { cwd: root, stdio: "inherit" });
    child.on("error", (problem) => {
      console.error(problem.message);
      resolve(1);
    });
    child.on("exit", (status) => resolve(status ?? 1));
  });
}

/** In one move, so that what runs from the old build, or starts at this moment, finds all files of one. */
function putInPlace(made, place) {
  mkdirSync(`${root}dist`, { recursive: true });
  const aside = `${made}.before`;
  for (let tried = 0; ; tried++) {
    try {
      if (existsSync(place)) renameSync(place, `${aside}-${tried}`);
      renameSync(made, place);
      return;
    } catch (problem) {
      // Another build may have put its own in between.
      if (tried >= 5) throw problem;
    }
  }
}

function isFresh({ folder, file, config }) {
  const built = `${root}${folder}/${file}`;
  if (!existsSync(built)) return false;
  const builtMs = statSync(built).mtimeMs;
  return [...madeFrom, config].every((name) => newestMs(`${root}${name}`) < builtMs);
}

/** A folder's own time counts too: it is the only trace of a file that was taken away. */
function newestMs(path) {
  const found = statSync(path);
  if (!found.isDirectory()) return found.mtimeMs;
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestMs(`${path}/${name}`)), found.mtimeMs);
}
