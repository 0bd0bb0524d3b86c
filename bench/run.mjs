// Measures everything that has a budget, each several times in a process of its own, and prints the medians beside the
// budgets: npm run bench. Times differ from machine to machine, so only what is over twice its budget fails.
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const FAR_OVER = 2;
const root = fileURLToPath(new URL("..", import.meta.url));
const { commandLine } = JSON.parse(readFileSync(new URL("budgets.json", import.meta.url), "utf8"));
const file = `${root}.cache/bench.jsonl`;
mkdirSync(`${root}.cache`, { recursive: true });
let isFarOver = false;

console.log(`${"".padEnd(48)}   median    worst   budget`);
writeFileSync(file, run(["--import", "tsx", "bench/fit.ts", "make"]));
measure(7, () => linesOf(["--import", "tsx", "bench/fit.ts", "fit", file]));
measure(7, () => linesOf(["--import", "tsx", "bench/fit.ts", "file", file]));
measure(3, () => linesOf(["--import", "tsx", "bench/one-reading.ts"]));
measure(7, () => linesOf(["--import", "tsx", "bench/demands.ts"]));
measure(7, () => linesOf(["--import", "tsx", "bench/next-check.ts"]));
measure(1, () => linesOf(["--import", "tsx", "bench/plan.ts"]));
measure(3, () => linesOf(["--import", "tsx", "bench/logbook.ts"]));
measure(3, () => linesOf(["--import", "tsx", "bench/store.ts"]));
measure(1, () => linesOf(["--import", "tsx", "bench/server.ts"]));
measure(3, () => linesOf(["--import", "tsx", "bench/page.ts"]));
const command = "dist/cli/kilter.js";
measure(7, () => wholeProcess("kilter --help, the whole process", [command, "--help"], commandLine.helpMs));
const demonstration = "catalog/demonstration/shared-workshop.jsonl";
measure(7, () =>
  wholeProcess(
    "kilter findings of the demonstration, likewise",
    [command, "findings", demonstration],
    commandLine.demonstrationFindingsMs,
  ),
);
measure(5, () => linesOf(["--import", "tsx", "bench/start.ts"]));
const mainJob = [command, "demonstration", "--to", ".cache/bench-demonstration"];
measure(5, () => wholeProcess("kilter demonstration, the main job, likewise", mainJob, commandLine.mainJobMs));
console.log(isFarOver ? `over ${FAR_OVER} times a budget` : `nothing is over ${FAR_OVER} times its budget`);
process.exitCode = isFarOver ? 1 : 0;

function measure(times, take) {
  const rounds = Array.from({ length: times }, take);
  for (const [index, first] of rounds[0].entries()) {
    if (first.note !== undefined) {
      console.log(`  ${first.note}`);
      continue;
    }
    const { name, unit, budget } = first;
    const values = rounds.map((round) => round[index].value).sort((a, b) => a - b);
    const median = values[Math.floor(times / 2)];
    const show = (value) => (value === null ? "" : `${value.toFixed(value < 10 ? 1 : 0)} ${unit}`).padStart(9);
    const remark = budget === null || median <= budget ? "" : median <= FAR_OVER * budget ? "  over" : "  far over";
    if (remark === "  far over") isFarOver = true;
    console.log(`${name.padEnd(48)}${show(median)}${show(values[times - 1])}${show(budget)}${remark}`);
  }
}

function linesOf(args) {
  return run(args)
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line));
}

function wholeProcess(name, args, budget) {
  const started = performance.now();
  run(args);
  return [{ name, value: performance.now() - started, unit: "ms", budget }];
}

function run(args) {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: root, encoding: "utf8", maxBuffer: 1e9 });
  if (status !== 0) throw new Error(stderr);
  return stdout;
}
