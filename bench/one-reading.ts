// One more reading on a logbook of 500: node --import tsx bench/one-reading.ts
import { readFileSync } from "node:fs";
import { limitsFor } from "../src/app/assess.ts";
import { evaluateFindings } from "../src/core/findings/evaluate.ts";
import { gateFromTimeline } from "../src/core/findings/gate.ts";
import { estimateProblem } from "../src/core/fit/estimate.ts";
import { innovationOf } from "../src/core/fit/preview.ts";
import { layOutProblem } from "../src/core/fit/problem.ts";
import { workedMachine } from "../tests/simulation/simulate.ts";
import { timelineOf } from "./many-readings.ts";

const { readings, previewMs, findingsMs } = JSON.parse(
  readFileSync(new URL("budgets.json", import.meta.url), "utf8"),
).oneReading;

const machine = workedMachine("moving-gantry");
const timeline = timelineOf(readings);
const previews: number[] = [];
const findings: number[] = [];
const rounds = 25;
// Readings are added one by one, as at the machine.
for (let n = readings - rounds; n < readings; n++) {
  const before = estimateProblem(layOutProblem(machine, { ...timeline, readings: timeline.readings.slice(0, n) }));
  const now = { ...timeline, readings: timeline.readings.slice(0, n + 1) };
  const started = performance.now();
  innovationOf(before, now, timeline.readings[n]);
  const previewed = performance.now();
  const problem = layOutProblem(machine, now);
  // Unknowns keep their names from reading to reading: the last estimate is where the next one starts.
  const known = new Map(before.problem.variables.map(({ id }, i) => [id, before.values[i]]));
  const from = Float64Array.from(problem.variables, ({ id, start }) => known.get(id) ?? start);
  evaluateFindings(estimateProblem(problem, from), limitsFor(machine, now), gateFromTimeline(machine, now));
  previews.push(previewed - started);
  findings.push(performance.now() - previewed);
}
report("innovation and preview of one more reading", previews, previewMs);
report("converged findings after it", findings, findingsMs);

function report(name: string, all: number[], budgetMs: number): void {
  const median = all.sort((a, b) => a - b)[Math.floor(all.length / 2)];
  console.log(
    `${name}: median ${median.toFixed(1)} ms, worst ${all[all.length - 1].toFixed(1)} ms (budget ${budgetMs} ms)`,
  );
  if (median > budgetMs) process.exitCode = 1;
}
