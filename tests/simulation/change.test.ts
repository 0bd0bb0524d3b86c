import { describe, expect, it } from "vitest";
import { findingsOf } from "../../src/core/findings/catalogue.ts";
import { changesBetween } from "../../src/core/findings/change.ts";
import { evaluateFindings } from "../../src/core/findings/evaluate.ts";
import { historyOf } from "../../src/core/findings/history.ts";
import { type Estimate, estimateTimeline } from "../../src/core/fit/estimate.ts";
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
  const [firstStage, secondStage] = readStages(estimate);
  const asked = (limit: number | null) => findings.map((finding) => ({ finding, limit }));

  it("have changes that are the difference of the two values, and no change within one epoch", () => {
    for (const { finding, before, after, change } of changesBetween(estimate, asked(null), firstStage, secondStage)) {
      expect(change, finding.id).toBeCloseTo(after.value - before.value, 9);
      if (isHomed(finding.id)) continue;
      const [was, is] = historyOf(estimate, finding);
      // The exact path of the tool bends a little with the homing.
      expect(before.value, finding.id).toBeCloseTo(was.value, 2);
      expect(after.value, finding.id).toBeCloseTo(is.value, 2);
    }
    for (const none of changesBetween(estimate, asked(1), secondStage, secondStage)) {
      expect(none.change).toBe(0);
      expect(none.expandedUncertainty).toBeCloseTo(0, 9);
      expect(none.verdict).toBe(none.read.before && none.read.after ? "stayed" : "not read on both sides");
    }
  });

  it("have a history that ends with each finding as it is listed now", () => {
    const listed = evaluateFindings(estimate, { own: new Map(), usual: new Map() }, { passed: true, checks: [] });
    for (const { finding, value, expandedUncertainty, low, high } of listed)
      expect(historyOf(estimate, finding).at(-1), finding.id).toMatchObject({ value, expandedUncertainty, low, high });
  });

  it("have changes known better than their two values apart, where an instrument's own error lies in both", () => {
    const linear = asked(null).filter(({ finding }) => finding.form === "linear");
    for (const { finding, expandedUncertainty, ...ends } of changesBetween(estimate, linear, firstStage, secondStage)) {
      const apart = Math.hypot(ends.before.expandedUncertainty, ends.after.expandedUncertainty);
      if (!("neverNegative" in finding)) expect(expandedUncertainty, finding.id).toBeLessThanOrEqual(1.0001 * apart);
    }
  });
});

describe("Of two rounds of which the second reads less", () => {
  const machine = workedMachine("moving-gantry");
  const first = plannedTimeline(machine, sixChecks());
  const again = (check: string) => first.runs.filter((run) => run.check === check).map(({ id }) => id);
  const bedAgain = new Set(again("bed-touch"));
  const copied = <T extends { readonly id: string; readonly at: number }>(one: T): T => ({
    ...one,
    id: `${one.id} again`,
    at: one.at + 4 * MONTH,
  });
  const later = {
    ...first,
    runs: [...first.runs, ...first.runs.filter(({ id }) => bedAgain.has(id)).map(copied)],
    readings: [
      ...first.readings,
      ...first.readings
        .filter(({ run }) => bedAgain.has(run))
        .map((reading) => ({ ...copied(reading), run: `${reading.run} again` })),
    ],
  };
  const problem = layOutProblem(machine, later);
  const random = createRandom(12);
  const estimate = estimateTimeline(machine, simulateReadings(problem, drawTruth(problem, random), random));
  const [before, after] = readStages(estimate);
  // Limits so wide that whatever is known at all would have stayed.
  const changes = changesBetween(
    estimate,
    findingsOf(machine).map((finding) => ({ finding, limit: 1000 })),
    before,
    after,
  );
  const changeOf = (id: string) => changes.find(({ finding }) => finding.id === id);

  it("what both read has moved or stayed", () => {
    for (const id of ["over-bed.x", "over-bed.y", "over-bed.twist", "depth-spread"]) {
      expect(changeOf(id)?.read, id).toEqual({ before: true, after: true });
      expect(changeOf(id)?.verdict, id).toMatch(/^(moved|stayed)$/);
    }
  });

  it("what the second left out is not said to have stayed, nor what of it hangs on the bed that was read", () => {
    for (const id of ["tram.side", "axis-to-motion.side", "squareness"])
      expect(changeOf(id), id).toMatchObject({
        read: { before: true, after: false },
        verdict: "not read on both sides",
      });
  });

  it("what neither read is not said to have stayed, though hardly anything could have moved it", () => {
    for (const id of ["scale.z", "runout", "rails.toe"])
      expect(changeOf(id), id).toMatchObject({
        read: { before: false, after: false },
        verdict: "not read on both sides",
      });
  });
});

function readStages({ problem }: Estimate): readonly number[] {
  return problem.epochs.flatMap(({ readings }, stage) => (readings.length > 0 ? [stage] : []));
}

/** What a homing leaves is in the history, and no part of a change. */
function isHomed(finding: string): boolean {
  return /^(squareness|grid-to-motion|yaw\.[xy])$/.test(finding);
}
