// The converged fit of 5,000 readings, and the way from file to findings, in a process that has done nothing else:
//   node --import tsx bench/fit.ts make > many.jsonl
//   node --import tsx bench/fit.ts fit many.jsonl
//   node --import tsx bench/fit.ts file many.jsonl
import { readFileSync } from "node:fs";
import { assess } from "../src/app/assess.ts";
import { openSession } from "../src/app/session.ts";
import { estimateProblem } from "../src/core/fit/estimate.ts";
import { layOutProblem } from "../src/core/fit/problem.ts";
import { logbookOf, millisecondsOfOneQr, timelineOf } from "./many-readings.ts";
import { print, tell } from "./measure.ts";

const { readings, fitMs, fileToFindingsMs } = JSON.parse(
  readFileSync(new URL("budgets.json", import.meta.url), "utf8"),
).fit;

const what = process.argv[2];
if (what === "make") {
  process.stdout.write(logbookOf(timelineOf(readings)));
} else {
  const text = readFileSync(process.argv[3] ?? 0, "utf8");
  const started = performance.now();
  const session = openSession(text, "made for measuring");
  if (!session.ok) throw new Error(JSON.stringify(session.diagnostics.slice(0, 3)));
  const { timeline, machine } = session.value;
  if (what === "fit") {
    const before = performance.now();
    const problem = layOutProblem(machine, timeline);
    const { iterations, converged, factor } = estimateProblem(problem);
    print({
      name: "the converged fit of 5,000 readings",
      value: performance.now() - before,
      unit: "ms",
      budget: fitMs,
    });
    const { observations, variables, ties } = problem;
    // A logbook that contradicts itself would be another problem than a workshop's.
    const perRow = factor.residualSquares / observations.length;
    if (!converged || perRow > 2) throw new Error(`converged: ${converged}, squares per row: ${perRow}`);
    tell(
      `${timeline.readings.length} readings of ${timeline.runs.length} runs in ${observations.length} rows, ${variables.length} unknowns with ${ties.length} priors, ${iterations} rounds`,
    );
    const qr = { name: "  beside it, one QR of 5,000 × 65", value: millisecondsOfOneQr(5000, 65) } as const;
    print({ ...qr, unit: "ms", budget: null });
  } else {
    const { findings } = assess(timeline);
    const name = `from its file to ${findings.length} findings`;
    print({ name, value: performance.now() - started, unit: "ms", budget: fileToFindingsMs });
  }
}
