import { covarianceTimes } from "../estimation/elimination.ts";
import type { Estimate } from "./estimate.ts";
import { type FitRow, ownHomingVariance, predictObservation } from "./linearise.ts";
import type { LaidOutObservation } from "./problem.ts";
import { type Repeat, repeatFrom, repeatsTogether } from "./repeats.ts";

/**
 * Change of all variables when a row is left out, to first order: −P a r/(1 − h), a and r whitened. Where only some of
 * the row's repeats are left out, the others come in again as a row of their own: + P a e/((1 − h)·(s'² + s²h/(1 − h))),
 * a in the reading's unit, e what they read less what is then expected, s' the standard deviation of their mean.
 *
 * @param without ids of the readings that are left out
 */
export function changeWithout(
  estimate: Estimate,
  row: FitRow,
  leverage: number,
  without: ReadonlySet<string>,
): Float64Array {
  const scattered = new Float64Array(estimate.factor.variables);
  for (let j = 0; j < row.columns.length; j++) scattered[row.columns[j]] += row.coefficients[j];
  const product = covarianceTimes(estimate.factor, scattered);
  const remaining = Math.max(1 - leverage, 1e-9);
  const observation = estimate.problem.observations[row.observation];
  const repeats = repeatsOf(estimate, observation);
  const left = repeats.filter((_, i) => !without.has(observation.values[i].reading.id));
  let share = -row.rightSide / remaining;
  if (left.length > 0) {
    const all = repeatsTogether(repeats);
    const others = repeatsTogether(left);
    const lasting = Math.max(0, row.sd ** 2 - all.variance);
    const expected = all.mean - (row.rightSide * row.sd) / remaining;
    const variance = others.variance + lasting + (row.sd ** 2 * leverage) / remaining;
    share += (row.sd * (others.mean - expected)) / (remaining * variance);
  }
  return product.map((value) => value * share);
}

/** An observation's values with what is drawn anew for each, a homing of its own where its check homes afresh. */
export function repeatsOf({ problem, values }: Estimate, observation: LaidOutObservation): readonly Repeat[] {
  const ownHoming = observation.check.homedAfresh
    ? ownHomingVariance(problem, observation, predictObservation(problem, observation, values).gradient)
    : 0;
  return observation.values.map((value) => repeatFrom(value, ownHoming));
}
