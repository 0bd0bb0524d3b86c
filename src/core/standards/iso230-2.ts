import { invariant } from "../base/invariant.ts";
import { evaluateSeries } from "../uncertainty/type-a.ts";

/** Deviations at one target, actual less commanded, each approached several times from either side. */
export interface TargetRuns {
  readonly positionMm: number;
  /** Reached going up, towards +. */
  readonly upMm: readonly number[];
  /** Reached going down, towards −. */
  readonly downMm: readonly number[];
}

/** One target's figures. Those that need a scatter are undefined when a direction has fewer than two runs. */
export interface TargetEvaluation {
  readonly positionMm: number;
  readonly meanUpMm: number;
  readonly meanDownMm: number;
  /** x̄ᵢ, the mean of both directions. */
  readonly meanMm: number;
  /** Bᵢ = x̄ᵢ↑ − x̄ᵢ↓. */
  readonly reversalMm: number;
  readonly standardDeviationUpMm: number | undefined;
  readonly standardDeviationDownMm: number | undefined;
  /** Rᵢ of both directions together. */
  readonly repeatabilityMm: number | undefined;
}

/** The three figures of one direction, or of both. */
export interface AxisFigures {
  /** A: spread of the means with two standard deviations on either side. */
  readonly positioningAccuracyMm: number | undefined;
  /** E: spread of the means. */
  readonly systematicDeviationMm: number;
  /** R: the largest repeatability of a target. */
  readonly repeatabilityMm: number | undefined;
}

export interface AxisEvaluation {
  readonly targets: readonly TargetEvaluation[];
  readonly up: AxisFigures;
  readonly down: AxisFigures;
  readonly bidirectional: AxisFigures;
  /** B, the largest |Bᵢ|. */
  readonly reversalMm: number;
  /** B̄, the mean of Bᵢ with its sign. */
  readonly meanReversalMm: number;
  /** M, the spread of the means of both directions. */
  readonly meanDeviationRangeMm: number;
}

/**
 * Accuracy and repeatability of positioning along one axis.
 *
 *   Bᵢ = x̄ᵢ↑ − x̄ᵢ↓,  B = max|Bᵢ|,  x̄ᵢ = (x̄ᵢ↑ + x̄ᵢ↓)/2,  M = max x̄ᵢ − min x̄ᵢ
 *   Rᵢ↑ = 4sᵢ↑,  Rᵢ↓ = 4sᵢ↓,  Rᵢ = max(2sᵢ↑ + 2sᵢ↓ + |Bᵢ|, Rᵢ↑, Rᵢ↓),  R = max Rᵢ
 *   E = max(x̄↑, x̄↓) − min(x̄↑, x̄↓),  A = max(x̄ + 2s) − min(x̄ − 2s) over both directions; E↑, A↑ … over one
 *
 * s has n − 1 below. The procedure asks for five runs each way at five targets or more, unevenly spaced; with a single
 * run each way (axes over 2 m) E, B and M remain. Source: [ISO 230-2 §2].
 *
 * @param targets at least one, each with at least one run each way, finite
 */
export function evaluatePositionRuns(targets: readonly TargetRuns[]): AxisEvaluation {
  invariant(targets.length > 0, "an axis is evaluated at one target at least");
  const evaluated = targets.map(evaluateTarget);
  const up = evaluated.map((t) => ({ mean: t.meanUpMm, s: t.standardDeviationUpMm }));
  const down = evaluated.map((t) => ({ mean: t.meanDownMm, s: t.standardDeviationDownMm }));
  const both = [...up, ...down];
  const reversals = evaluated.map((t) => t.reversalMm);
  return {
    targets: evaluated,
    up: { ...spreads(up), repeatabilityMm: largest(up.map(fourTimes)) },
    down: { ...spreads(down), repeatabilityMm: largest(down.map(fourTimes)) },
    bidirectional: { ...spreads(both), repeatabilityMm: largest(evaluated.map((t) => t.repeatabilityMm)) },
    reversalMm: Math.max(...reversals.map(Math.abs)),
    meanReversalMm: evaluateSeries(reversals).mean,
    meanDeviationRangeMm: range(evaluated.map((t) => t.meanMm)),
  };
}

function evaluateTarget({ positionMm, upMm, downMm }: TargetRuns): TargetEvaluation {
  const up = evaluateSeries(upMm);
  const down = evaluateSeries(downMm);
  const reversalMm = up.mean - down.mean;
  const scatterUp = up.count > 1 ? up.standardDeviation : undefined;
  const scatterDown = down.count > 1 ? down.standardDeviation : undefined;
  return {
    positionMm,
    meanUpMm: up.mean,
    meanDownMm: down.mean,
    meanMm: (up.mean + down.mean) / 2,
    reversalMm,
    standardDeviationUpMm: scatterUp,
    standardDeviationDownMm: scatterDown,
    repeatabilityMm:
      scatterUp === undefined || scatterDown === undefined
        ? undefined
        : Math.max(2 * scatterUp + 2 * scatterDown + Math.abs(reversalMm), 4 * scatterUp, 4 * scatterDown),
  };
}

function spreads(directions: readonly { readonly mean: number; readonly s: number | undefined }[]) {
  const high = largest(directions.map(({ mean, s }) => (s === undefined ? undefined : mean + 2 * s)));
  const low = largest(directions.map(({ mean, s }) => (s === undefined ? undefined : 2 * s - mean)));
  return {
    positioningAccuracyMm: high === undefined || low === undefined ? undefined : high + low,
    systematicDeviationMm: range(directions.map(({ mean }) => mean)),
  };
}

function fourTimes({ s }: { readonly s: number | undefined }): number | undefined {
  return s === undefined ? undefined : 4 * s;
}

/** The largest, or undefined as soon as one is. */
function largest(values: readonly (number | undefined)[]): number | undefined {
  let top = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value === undefined) return undefined;
    top = Math.max(top, value);
  }
  return top;
}

function range(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}
