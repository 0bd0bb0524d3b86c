import { describe, expect, test } from "vitest";
import { evaluatePositionRuns } from "./iso230-2.ts";

const targets = [
  { positionMm: 10, upMm: [0, 0.02], downMm: [0.05, 0.05] },
  { positionMm: 47, upMm: [0.1, 0.1], downMm: [0.08, 0.12] },
];

describe("position runs", () => {
  test("reversal, means and spreads follow from the means of the runs", () => {
    const axis = evaluatePositionRuns(targets);
    expect(axis.targets[0]!.reversalMm).toBeCloseTo(-0.04, 15);
    expect(axis.targets[1]!.reversalMm).toBeCloseTo(0, 15);
    expect(axis.reversalMm).toBeCloseTo(0.04, 15);
    expect(axis.meanReversalMm).toBeCloseTo(-0.02, 15);
    expect(axis.meanDeviationRangeMm).toBeCloseTo(0.07, 15);
    expect(axis.up.systematicDeviationMm).toBeCloseTo(0.09, 15);
    expect(axis.bidirectional.systematicDeviationMm).toBeCloseTo(0.09, 15);
  });

  test("the repeatability of a target counts reversal only where it is the larger", () => {
    const axis = evaluatePositionRuns(targets);
    const s = 0.02 / Math.SQRT2;
    expect(axis.targets[0]!.repeatabilityMm).toBeCloseTo(Math.max(2 * s + 0.04, 4 * s), 15);
    expect(axis.targets[1]!.repeatabilityMm).toBeCloseTo(4 * 2 * s, 15);
    expect(axis.up.repeatabilityMm).toBeCloseTo(4 * s, 15);
    expect(axis.bidirectional.repeatabilityMm).toBeCloseTo(8 * s, 15);
  });

  test("a common offset changes nothing but the means; turning the axis round changes the reversal's sign", () => {
    const axis = evaluatePositionRuns(targets);
    const lifted = evaluatePositionRuns(
      targets.map((t) => ({ ...t, upMm: t.upMm.map((x) => x + 3), downMm: t.downMm.map((x) => x + 3) })),
    );
    expect(lifted.bidirectional.positioningAccuracyMm).toBeCloseTo(axis.bidirectional.positioningAccuracyMm!, 12);
    const turned = evaluatePositionRuns(targets.map((t) => ({ ...t, upMm: t.downMm, downMm: t.upMm })));
    expect(turned.meanReversalMm).toBeCloseTo(-axis.meanReversalMm, 15);
    expect(turned.bidirectional).toEqual(axis.bidirectional);
  });

  test("one run each way says nothing of scatter, and keeps reversal and systematic deviation", () => {
    const axis = evaluatePositionRuns([
      { positionMm: 0, upMm: [0.01], downMm: [0.03] },
      { positionMm: 250, upMm: [0.05], downMm: [0.02] },
    ]);
    expect(axis.bidirectional.repeatabilityMm).toBeUndefined();
    expect(axis.bidirectional.positioningAccuracyMm).toBeUndefined();
    expect(axis.bidirectional.systematicDeviationMm).toBeCloseTo(0.04, 15);
    expect(axis.reversalMm).toBeCloseTo(0.03, 15);
  });
});
