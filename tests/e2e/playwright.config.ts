import { defineConfig } from "@playwright/test";
import { chromium } from "./browser.ts";

export default defineConfig({
  testDir: ".",
  // Vitest takes what ends in .test.ts, so these end otherwise.
  testMatch: "*-in-browser.ts",
  outputDir: "../../.cache/e2e/results",
  // Every test has a page and a server of its own, or only looks: while one waits for its server another may draw.
  fullyParallel: true,
  workers: 2,
  // For what hangs: a busy computer must fail nothing.
  timeout: 240_000,
  // Where nobody sits beside it a test may be tried once more; whoever counts says by name which one had to be.
  retries: process.env.CI ? 1 : 0,
  expect: { timeout: 60_000 },
  reporter: [["list"], ["json", { outputFile: "../../.cache/e2e/report.json" }]],
  use: {
    launchOptions: {
      executablePath: chromium(),
      args: ["--no-sandbox", "--disable-quic", "--disable-background-networking"],
    },
    contextOptions: { reducedMotion: "reduce" },
  },
});
