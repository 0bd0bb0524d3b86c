import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

const places = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

/** What to do where there is none, in one line. */
export const noChromium =
  "The browser tests need Chromium: install it (on Debian: apt-get install chromium), or name one in CHROMIUM.";

/** The one that CHROMIUM names, or else the system's; null where there is none. */
export function findChromium() {
  const named = process.env.CHROMIUM;
  return (named ? [named] : places).find((place) => existsSync(place)) ?? null;
}

/** Finds it or, where this may be done without asking anybody, installs Debian's package first. */
export function getChromium() {
  const found = findChromium();
  if (found !== null || process.env.CHROMIUM || !mayInstall()) return found;
  console.log("Installing the package chromium");
  if (!aptGet("install", "--no-install-recommends", "chromium")) {
    // A list of packages that is missing or old names none that can still be fetched.
    if (aptGet("update")) aptGet("install", "--no-install-recommends", "chromium");
  }
  return findChromium();
}

/** As root, or on a machine that only builds and tests. */
function mayInstall() {
  return existsSync("/usr/bin/apt-get") && (isRoot() || Boolean(process.env.CI));
}

function isRoot() {
  return process.getuid?.() === 0;
}

/** True where it did what was asked; what it says is shown only where it did not. */
function aptGet(...words) {
  const command = [...(isRoot() ? [] : ["sudo", "-n"]), "apt-get", "-qq", "--yes", ...words];
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  const { status, stdout, stderr, error } = spawnSync(command[0], command.slice(1), { env, encoding: "utf8" });
  if (status !== 0) console.error(`${command.join(" ")}: ${error?.message ?? `${stdout}${stderr}`.trim()}`);
  return status === 0;
}
