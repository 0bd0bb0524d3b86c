import { describe, expect, it } from "vitest";
import { findingsOf } from "../../src/core/findings/catalogue.ts";
import { changeBetween } from "../../src/core/findings/change.ts";
import { historyOf } from "../../src/core/findings/history.ts";
import { estimateTimeline } from "../../src/core/fit/estimate.ts";
import { layOutProblem } from "../../src/core/fit/problem.ts";
import { createRandom } from "../../src/core/numerics/random.ts";
import { drawTruth, plannedTimeline, simulateReadings, sixChecks, workedMachine } from "./simulate.ts";

const MONTH = 30.44 * 86_400_000;

describe.each(["moving-gantry", "fixed-bridge"] as const)("two rounds on a %s", (layout) => {
  const machine = workedMachine(layout);
  const first = plannedTimeline(machine, sixChecks());
  // The same checks once more, four months on, read with the same instruments.
  const later = {
    ...first,
    runs: [...first.runs, ...first.runs.map((run) => ({ ...run, id: `${run.id} again`, at: run.at + 4 * MONTH }))],
    readings: [
      ...first.readings,
      ...first.readings.map((reading) => ({
        ...reading,
        id: `${reading.id} again`,
        run: `${reading.run} again`,
        at: reading.at + 4 * MONTH,
      })),
    ],
  };
  const problem = layOutProblem(machine, later);
  const random = createRandom(12);
  const estimate = estimateTimeline(machine, simulateReadings(problem, drawTruth(problem, random), random));
  const findings = findingsOf(machine);

  it("have changes that are the difference of the two values, and no change within one epoch", () => {
    for (const finding of findings) {
      const [before, after] = historyOf(estimate, finding);
      const stages = estimate.problem.epochs.flatMap(({ readings }, stage) => (readings.length > 0 ? [stage] : []));
      const { change, ...ends } = changeBetween(estimate, finding, null, stages[0], stages[1]);
      expect(ends.before, finding.id).toBeCloseTo(before.value, 9);
      expect(ends.after, finding.id).toBeCloseTo(after.value, 9);
      expect(change).toBeCloseTo(after.value - before.value, 9);
      const none = changeBetween(estimate, finding, 1, stages[1], stages[1]);
      expect(none).toMatchObject({ change: 0, verdict: "stayed" });
      expect(none.expandedUncertainty).toBeCloseTo(0, 9);
    }
  });

  it("have changes known better than their two values apart, where an instrument's own error lies in both", () => {
    const stages = estimate.problem.epochs.flatMap(({ readings }, stage) => (readings.length > 0 ? [stage] : []));
    for (const finding of findings.filter(({ form }) => form === "linear")) {
      const [before, after] = historyOf(estimate, finding);
      const { expandedUncertainty } = changeBetween(estimate, finding, null, stages[0], stages[1]);
      const apart = Math.hypot(before.expandedUncertainty, after.expandedUncertainty);
      expect(expandedUncertainty, finding.id).toBeLessThanOrEqual(1.0001 * apart);
    }
  });
});
