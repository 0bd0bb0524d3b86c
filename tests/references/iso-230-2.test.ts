import { test } from "vitest";
import { evaluatePositionRuns } from "../../src/core/standards/iso230-2.ts";
import runs from "./data/positioning-runs.json" with { type: "json" };
import { openReference } from "./reference.ts";

const source = openReference("[ISO 230-2 §2]");

const axis = evaluatePositionRuns(
  runs.targetsMm.map((positionMm, i) => ({
    positionMm,
    upMm: runs.upMm[i]!.map((actual) => actual - positionMm),
    downMm: runs.downMm[i]!.map((actual) => actual - positionMm),
  })),
);
const um = (mm: number | undefined) => 1000 * mm!;

test("slit positioner: figures that its report prints, and that follow the standard", () => {
  // The report cuts some figures off instead of rounding them, hence 0.01 µm. Its R and E are left out: they take the
  // larger direction's R, and one direction's E.
  const because = "the report rounds or cuts";
  const printed = [
    ["B, mm", "0.00456", axis.reversalMm],
    ["B̄ (its size), mm", "0.00069", Math.abs(axis.meanReversalMm)],
    ["R↑, mm", "0.0075", axis.up.repeatabilityMm],
    ["R↓, mm", "0.00388", axis.down.repeatabilityMm],
    ["E↑, mm", "0.01505", axis.up.systematicDeviationMm],
    ["E↓, mm", "0.01485", axis.down.systematicDeviationMm],
    ["M, mm", "0.01495", axis.meanDeviationRangeMm],
    ["A↑, mm", "0.01806", axis.up.positioningAccuracyMm],
    ["A↓, mm", "0.01655", axis.down.positioningAccuracyMm],
    ["A, mm", "0.01858", axis.bidirectional.positioningAccuracyMm],
  ] as const;
  for (const [what, expected, got] of printed) {
    source.number({ what, expected, got: got!, status: "published", within: 1e-5, because });
  }
});

test("slit positioner: figures of the axis by another program", () => {
  const computed = [
    ["B, µm", "4.564", axis.reversalMm],
    ["R↑, µm", "7.502352", axis.up.repeatabilityMm],
    ["R↓, µm", "3.882515", axis.down.repeatabilityMm],
    ["R, µm", "8.353904", axis.bidirectional.repeatabilityMm],
    ["E↑, µm", "15.052", axis.up.systematicDeviationMm],
    ["E↓, µm", "14.852", axis.down.systematicDeviationMm],
    ["E, µm", "15.988", axis.bidirectional.systematicDeviationMm],
    ["M, µm", "14.952", axis.meanDeviationRangeMm],
    ["A↑, µm", "18.065409", axis.up.positioningAccuracyMm],
    ["A↓, µm", "16.542530", axis.down.positioningAccuracyMm],
    ["A, µm", "18.571303", axis.bidirectional.positioningAccuracyMm],
  ] as const;
  for (const [what, expected, got] of computed) {
    source.number({ what, expected, got: um(got), status: "independent program" });
  }
  source.number({
    what: "B̄ (its size), µm",
    expected: "0.6956",
    got: Math.abs(um(axis.meanReversalMm)),
    status: "independent program",
  });
});

test("slit positioner: figures of each target by another program", () => {
  const perTarget = [
    ["2.250", "4.202", "-1.952", "5.232137"],
    ["0.394", "-4.170", "4.564", "6.275259"],
    ["2.084", "-0.854", "2.938", "8.353904"],
    ["-9.020", "-7.884", "-1.136", "4.179419"],
    ["6.032", "6.968", "-0.936", "2.596521"],
  ] as const;
  perTarget.forEach(([up, down, reversal, repeatability], i) => {
    const target = axis.targets[i]!;
    const name = `target ${i + 1}`;
    const status = "independent program";
    source.number({ what: `${name}: mean going up, µm`, expected: up, got: um(target.meanUpMm), status });
    source.number({ what: `${name}: mean going down, µm`, expected: down, got: um(target.meanDownMm), status });
    source.number({ what: `${name}: reversal, µm`, expected: reversal, got: um(target.reversalMm), status });
    source.number({ what: `${name}: R, µm`, expected: repeatability, got: um(target.repeatabilityMm), status });
  });
});
