// One more reading on a logbook of 500, the median of the last 25: node --import tsx bench/one-reading.ts
import { readFileSync } from "node:fs";
import { limitsFor } from "../src/app/assess.ts";
import { evaluateFindings } from "../src/core/findings/evaluate.ts";
import { gateFromTimeline } from "../src/core/findings/gate.ts";
import { estimateProblem, startFrom } from "../src/core/fit/estimate.ts";
import { innovationOf } from "../src/core/fit/preview.ts";
import { layOutProblem } from "../src/core/fit/problem.ts";
import { workedMachine } from "../tests/simulation/simulate.ts";
import { timelineOf } from "./many-readings.ts";
import { median, print } from "./measure.ts";

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
  evaluateFindings(
    estimateProblem(problem, startFrom(problem, before)),
    limitsFor(machine, now),
    gateFromTimeline(machine, now),
  );
  previews.push(previewed - started);
  findings.push(performance.now() - previewed);
}
print(
  { name: "innovation and preview of one more reading", value: median(previews), unit: "ms", budget: previewMs },
  { name: "converged findings after it", value: median(findings), unit: "ms", budget: findingsMs },
);
