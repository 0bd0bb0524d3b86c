// Installs the packages of the lock file when they are not the ones already there; otherwise does nothing, at once.
// Runs before `npm start` and `npm test`, so it may lean on nothing but Node itself.
import { spawn } from "node:child_process";
import { createHash, randomUUID } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const stamp = `${root}node_modules/.kilter-set-up`;
// Not in node_modules, which an installation begins by deleting.
const guard = `${root}.cache/set-up.lock`;

/** Tells this run's guard from another's. */
const token = randomUUID();

const beatMs = 1_000;
/** A guard that nobody has touched for so long was left by an installation that was killed. */
const deadAfterMs = 20_000;
/** Even where a process of that number is alive: numbers are given out again. */
const surelyDeadAfterMs = 600_000;

if (isSetUp()) process.exit(0);
await takeGuard();
try {
  // Another run may have finished the work while this one waited.
  process.exitCode = isSetUp() ? 0 : await install();
} finally {
  leaveGuard();
}

function isSetUp() {
  return existsSync(stamp) && readFileSync(stamp, "utf8") === wanted();
}

/** What the installed packages follow from: the lock file, what is asked for, and the machine they were built on. */
function wanted() {
  const asked = JSON.parse(readFileSync(`${root}package.json`, "utf8"));
  const fields = [
    "dependencies",
    "devDependencies",
    "optionalDependencies",
    "peerDependencies",
    "overrides",
    "engines",
  ];
  return createHash("sha256")
    .update(readFileSync(`${root}package-lock.json`))
    .update(JSON.stringify(fields.map((field) => asked[field] ?? null)))
    .update([process.platform, process.arch, process.versions.modules].join(" "))
    .digest("hex");
}

async function install() {
  // Taken before: should the lock file change meanwhile, the stamp is of the old one and the next run installs again.
  const hash = wanted();
  rmSync(stamp, { force: true });
  console.log("Installing the packages of package-lock.json");
  const started = performance.now();
  // No package here needs its own script to work, so none may run one.
  const status = await runNpm(["ci", "--include=dev", "--ignore-scripts", "--no-progress", "--loglevel=warn"]);
  if (status !== 0) {
    console.error("The packages could not be installed: npm ci ended with status", status);
    return status;
  }
  writeFileSync(stamp, hash);
  console.log(`Installed in ${((performance.now() - started) / 1000).toFixed(1)} s`);
  return 0;
}

/** Resolves to the exit status; touches the guard all the while, and dies no sooner than npm. */
function runNpm(args) {
  const ownNpm = process.env.npm_execpath;
  const child = ownNpm?.endsWith("js")
    ? spawn(process.execPath, [ownNpm, ...args], { cwd: root, stdio: "inherit" })
    : spawn("npm", args, { cwd: root, stdio: "inherit", shell: process.platform === "win32" });
  writeFileSync(guard, JSON.stringify({ token, pid: child.pid }));
  const beat = setInterval(() => {
    if (isOwnGuard()) utimesSync(guard, new Date(), new Date());
  }, beatMs);
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, () => child.kill(signal));
  return new Promise((resolve) => {
    const end = (status) => {
      clearInterval(beat);
      resolve(status);
    };
    child.on("error", (problem) => {
      console.error(problem.message);
      end(1);
    });
    child.on("exit", (status, signal) => end(signal ? 1 : status));
  });
}

/** Resolves once this process holds the guard. */
async function takeGuard() {
  mkdirSync(`${root}.cache`, { recursive: true });
  let said = false;
  for (;;) {
    try {
      writeFileSync(guard, JSON.stringify({ token, pid: process.pid }), { flag: "wx" });
      return;
    } catch (problem) {
      if (problem.code !== "EEXIST") throw problem;
    }
    if (removeDeadGuard()) continue;
    if (!said) console.log("Waiting for an installation that is already running");
    said = true;
    await pause(beatMs / 4);
  }
}

/** True where the guard was left by an installation that is no more, and is now out of the way. */
function removeDeadGuard() {
  const seen = readGuard();
  if (seen === null) return true;
  if (seen.ageMs < deadAfterMs || (seen.ageMs < surelyDeadAfterMs && isAlive(seen.pid))) return false;
  // Moved aside first: of several that find it dead only one moves it, and that one looks whether it was the same.
  const aside = `${guard}.${randomUUID()}`;
  try {
    renameSync(guard, aside);
  } catch {
    return true;
  }
  if (readGuard(aside)?.text !== seen.text) {
    renameSync(aside, guard);
    return false;
  }
  rmSync(aside, { force: true });
  return true;
}

function readGuard(path = guard) {
  try {
    const text = readFileSync(path, "utf8");
    const ageMs = Date.now() - statSync(path).mtimeMs;
    let pid = 0;
    try {
      pid = JSON.parse(text).pid;
    } catch {
      // Half written when its owner was killed: nobody to ask, its age alone counts.
    }
    return { text, ageMs, pid };
  } catch {
    return null;
  }
}

function isAlive(pid) {
  if (!pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (problem) {
    return problem.code === "EPERM";
  }
}

function isOwnGuard() {
  return readGuard()?.text.includes(token) ?? false;
}

function leaveGuard() {
  if (isOwnGuard()) rmSync(guard, { force: true });
}
