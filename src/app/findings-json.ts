import type { FindingResult } from "../core/findings/evaluate.ts";
import { untouchedDirections } from "../core/fit/apart.ts";
import type { Assessment } from "./assess.ts";
import { oddReadings } from "./odd-readings.ts";

/** What machines read: unrounded numbers, units and coverage in the names. */
export function findingsAsJson(assessment: Assessment) {
  const { timeline, gate, trust, findings, estimate } = assessment;
  return {
    machine: timeline.machine.name,
    layout: timeline.machine.layout,
    readings: timeline.readings.length,
    fitToMeasure: {
      passed: gate.passed,
      checks: gate.checks.map(({ check, state, where }) => ({ check: check.id, state, where })),
    },
    fit: {
      converged: estimate.converged,
      iterations: estimate.iterations,
      chiSquare: trust.chiSquare,
      degreesOfFreedom: trust.degreesOfFreedom,
      probability: trust.probability,
      strange: trust.strange,
    },
    /** Directions that no reading has narrowed: shares of the usual modes that stand together. */
    notToldApart: untouchedDirections(estimate),
    findings: findings.map(findingAsJson),
    oddReadings: oddReadings(assessment),
    runs: trust.runs.map(({ run, ...judged }) => ({ run: run.id, check: run.check, ...judged })),
  };
}

export function findingAsJson(result: FindingResult) {
  const { finding, value, expandedUncertainty, low, high, limit, limitIsOwn, probability, afterNextHoming, verdict } =
    result;
  return {
    id: finding.id,
    title: finding.title,
    symbol: finding.symbol ?? null,
    unit: finding.unit,
    value,
    expandedUncertainty,
    coverageFactor: 2,
    low,
    high,
    limit,
    limitIsOwn,
    probabilityWithin: probability,
    afterNextHoming,
    verdict,
    heldBack: result.heldBack,
  };
}
