// The converged fit of 5,000 readings, and the way from file to findings, in a process that has done nothing else:
//   node --import tsx bench/fit.ts
import { readFileSync } from "node:fs";
import { assess } from "../src/app/assess.ts";
import { openSession } from "../src/app/session.ts";
import { estimateProblem } from "../src/core/fit/estimate.ts";
import { layOutProblem } from "../src/core/fit/problem.ts";
import { logbookOf, millisecondsOfOneQr, timelineOf } from "./many-readings.ts";

const { readings, fitMs, fileToFindingsMs } = JSON.parse(
  readFileSync(new URL("budgets.json", import.meta.url), "utf8"),
).fit;

const what = process.argv[2] ?? "file";
if (what === "make") {
  process.stdout.write(logbookOf(timelineOf(readings)));
} else {
  const text = readFileSync(process.argv[3] ?? 0, "utf8");
  const started = performance.now();
  const session = openSession(text, "made for measuring");
  if (!session.ok) throw new Error(JSON.stringify(session.diagnostics.slice(0, 3)));
  if (what === "fit") {
    const before = performance.now();
    const problem = layOutProblem(session.value.machine, session.value.timeline);
    const { iterations, converged } = estimateProblem(problem);
    report("the converged fit", performance.now() - before, fitMs);
    console.log(
      `  ${session.value.timeline.readings.length} readings in ${problem.observations.length} rows, ${problem.variables.length} unknowns, ${iterations} rounds, converged: ${converged}`,
    );
    console.log(`  one QR of 5000 × 65 in the same process: ${millisecondsOfOneQr(5000, 65).toFixed(0)} ms`);
  } else {
    const { findings } = assess(session.value.timeline);
    report(`from file to ${findings.length} findings`, performance.now() - started, fileToFindingsMs);
  }
}

function report(name: string, ms: number, budgetMs: number): void {
  console.log(`${name}: ${ms.toFixed(0)} ms (budget ${budgetMs} ms)`);
  if (ms > budgetMs) process.exitCode = 1;
}
