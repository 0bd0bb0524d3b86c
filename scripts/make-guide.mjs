// Makes the tables in docs/guides/logbook.md anew from the catalogue of checks, instruments, adjusters and findings.
// A test fails while they are stale.
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { runnerImport } from "vite";

const root = fileURLToPath(new URL("..", import.meta.url));
const guide = `${root}docs/guides/logbook.md`;
const { module } = await runnerImport(`${root}scripts/guide-tables.ts`, { root, configFile: false, logLevel: "error" });

const before = readFileSync(guide, "utf8");
const after = module.withFreshSections(before);
if (after === before) console.log("docs/guides/logbook.md is fresh");
else {
  writeFileSync(guide, after);
  console.log("docs/guides/logbook.md is rewritten");
}
