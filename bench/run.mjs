// Measures everything that has a budget and prints it beside the budget: npm run bench. Medians of fresh processes.
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const budgets = JSON.parse(readFileSync(new URL("budgets.json", import.meta.url), "utf8"));
const file = `${root}.cache/bench.jsonl`;
mkdirSync(`${root}.cache`, { recursive: true });
let isWithin = true;

writeFileSync(file, run(["--import", "tsx", "bench/fit.ts", "make"]).stdout);
for (const what of ["fit", "file"]) print(run(["--import", "tsx", "bench/fit.ts", what, file]));
print(run(["--import", "tsx", "bench/one-reading.ts"]));
print(run(["--import", "tsx", "bench/logbook.ts"]));
const command = "dist/cli/kilter.js";
wholeProcess("kilter --help", [command, "--help"], budgets.commandLine.helpMs);
const demonstration = "catalog/demonstration/shared-workshop.jsonl";
wholeProcess(
  "kilter findings, demonstration",
  [command, "findings", demonstration],
  budgets.commandLine.demonstrationFindingsMs,
);
process.exitCode = isWithin ? 0 : 1;

function wholeProcess(name, args, budgetMs) {
  const times = Array.from({ length: 5 }, () => {
    const started = performance.now();
    const { status, stderr } = run(args);
    if (status !== 0) throw new Error(stderr);
    return performance.now() - started;
  }).sort((a, b) => a - b);
  console.log(`${name}: median ${times[2].toFixed(0)} ms as a whole process (budget ${budgetMs} ms)`);
  if (times[2] > budgetMs) isWithin = false;
}

function print({ stdout, stderr, status }) {
  process.stdout.write(stdout);
  process.stderr.write(stderr);
  if (status !== 0) isWithin = false;
}

function run(args) {
  return spawnSync(process.execPath, args, { cwd: root, encoding: "utf8", maxBuffer: 1e9 });
}
