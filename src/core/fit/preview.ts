import { covarianceTimes } from "../estimation/elimination.ts";
import type { Estimate } from "./estimate.ts";
import { ownHomingVariance, predictObservation } from "./linearise.ts";
import { type LaidOutObservation, layOutProblem } from "./problem.ts";
import type { Reading, Timeline } from "./timeline.ts";

/** How a reading sits with everything before it, told before it is accepted. */
export interface Innovation {
  /** What the rest suggests for this reading, in the formula's terms, and how well. */
  readonly predicted: number;
  readonly predictedSd: number;
  /** What was read less what was predicted. */
  readonly away: number;
  /** `away` by its own standard deviation, the reading's scatter included. */
  readonly normalised: number;
  readonly fits: "fits" | "far" | "new";
  /** The updated estimate, to first order: a preview until the converged one replaces it. */
  readonly change: Float64Array;
  readonly estimateBefore: Estimate;
}

/** Beyond this a reading is told to be read again. */
const FAR = 3.5;

/**
 * The innovation of one more reading: e = y − h(x̂), S = H P Hᵀ + R, x⁺ = x̂ + P Hᵀ e/S. An unknown that no reading has
 * touched comes in with its prior. A reading that the rest says nothing about (its own zero is free) is "new".
 * Null when the reading does not bear on the geometry.
 */
export function innovationOf(estimate: Estimate, timelineWith: Timeline, reading: Reading): Innovation | null {
  const problem = layOutProblem(estimate.problem.machine, timelineWith);
  const observation = problem.observations.find(({ values }) =>
    values.some((value) => value.reading.id === reading.id),
  );
  const value = observation?.values.find((v) => v.reading.id === reading.id);
  if (!observation || !value) return null;
  const known = new Map(estimate.problem.variables.map((variable, index) => [variable.id, index]));
  const values = Float64Array.from(problem.variables, ({ id, start }) => {
    const index = known.get(id);
    return index === undefined ? start : estimate.values[index];
  });
  const predicted = predictObservation(problem, observation, values);
  const g = new Float64Array(estimate.problem.variables.length);
  let fresh = 0;
  for (const [variable, coefficient] of coefficientsOf(observation, predicted.gradient)) {
    const { id, usualSd } = problem.variables[variable];
    const index = known.get(id);
    if (index === undefined) fresh += (coefficient * usualSd) ** 2;
    else g[index] += coefficient;
  }
  const product = covarianceTimes(estimate.factor, g);
  let explained = fresh;
  for (let i = 0; i < g.length; i++) explained += g[i] * product[i];
  const ownHoming = ownHomingVariance(problem, observation, predicted.gradient);
  const variance = explained + value.sd ** 2 + observation.ownVariance + ownHoming;
  const away = value.value - predicted.value;
  const normalised = away / Math.sqrt(variance);
  const far = Math.abs(normalised) > FAR;
  // With a prediction a hundred times coarser than the reading there is nothing to compare it with.
  const isNew = explained > (100 * Math.max(value.sd, 1e-3)) ** 2;
  return {
    predicted: predicted.value,
    predictedSd: Math.sqrt(explained),
    away,
    normalised,
    fits: far ? "far" : isNew ? "new" : "fits",
    change: product.map((p) => (p * away) / variance),
    estimateBefore: estimate,
  };
}

/** A prediction this many times coarser than the reading tells little of it (our choice). */
const WIDE = 3;

/**
 * How much a reading that is not far off says for itself. "near": it lies where it was expected, within twice its own scatter or what is known
 * nearly as well.
 * "open": further off, and only what is not known of the machine lets it stand. "edge": so far that even this is nearly
 * used up.
 */
export function standingOf({ away, normalised, predictedSd }: Innovation): "near" | "open" | "edge" {
  const whole = normalised === 0 ? 0 : (away / normalised) ** 2;
  const own = Math.sqrt(Math.max(0, whole - predictedSd ** 2));
  const isWide = predictedSd > WIDE * own;
  if (Math.abs(away) <= 2 * own || away === 0 || (!isWide && Math.abs(normalised) <= 2)) return "near";
  return Math.abs(normalised) > 2 ? "edge" : "open";
}

function* coefficientsOf(observation: LaidOutObservation, gradient: Float64Array): Generator<[number, number]> {
  for (let i = 0; i < gradient.length; i++) {
    if (gradient[i] !== 0 && observation.columns[i] >= 0) yield [observation.columns[i], gradient[i]];
  }
  for (const { variable, coefficient } of observation.extras) yield [variable, coefficient];
}
