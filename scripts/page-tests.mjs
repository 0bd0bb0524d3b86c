// The page in a real browser, built anew where it is stale: npm run page-tests -- [what Playwright takes]
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { getChromium, noChromium } from "./chromium.mjs";
import { freshBuild } from "./fresh-build.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));

const chromium = getChromium();
if (chromium === null) {
  console.error(noChromium);
  process.exit(1);
}
await freshBuild();
const args = ["node_modules/@playwright/test/cli.js", "test", "-c", "tests/e2e/playwright.config.ts"];
const { status, error } = spawnSync(process.execPath, [...args, ...process.argv.slice(2)], {
  cwd: root,
  stdio: "inherit",
  env: { ...process.env, CHROMIUM: chromium },
});
if (error) console.error(error.message);
process.exitCode = status ?? 1;
