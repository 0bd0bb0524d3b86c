import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

it("without a browser the tests in it fail with one line that says what to install, and are not passed over", () => {
  const { status, stdout, stderr } = spawnSync(process.execPath, ["scripts/page-tests.mjs"], {
    cwd: fileURLToPath(new URL("../../", import.meta.url)),
    encoding: "utf8",
    env: { ...process.env, CHROMIUM: "/no/such/browser" },
  });
  expect(status).toBe(1);
  expect(stdout).toBe("");
  expect(stderr).toMatch(/^The browser tests need Chromium: install it .*apt-get install chromium.*\n$/);
});
