import { invariant } from "../base/invariant.ts";
import { studentQuantile } from "../numerics/distributions.ts";

/** One part of a combined uncertainty: its size in the result, and how well that size is known. */
export interface Contribution {
  /** |c|·u, in the unit of the result. */
  readonly standardUncertainty: number;
  /** ν of the input; Infinity when its uncertainty is taken as known. */
  readonly degreesOfFreedom: number;
}

/**
 * The effective degrees of freedom of a sum of independent contributions.
 *
 *   ν_eff = u⁴ / Σ(uᵢ⁴/νᵢ),  u² = Σuᵢ²
 *
 * Source: [GUM §G.4.1 eq. G.2b]. Not valid for correlated contributions. Not rounded down: who reads it against a
 * table may do so.
 *
 * @returns Infinity when every contribution is taken as known, or all are 0
 */
export function effectiveDegreesOfFreedom(contributions: readonly Contribution[]): number {
  const largest = Math.max(0, ...contributions.map((part) => part.standardUncertainty));
  if (largest === 0) return Number.POSITIVE_INFINITY;
  let square = 0;
  let sum = 0;
  for (const part of contributions) {
    invariant(part.degreesOfFreedom > 0, "degrees of freedom are positive");
    const size = (part.standardUncertainty / largest) ** 2;
    square += size;
    sum += (size * size) / part.degreesOfFreedom;
  }
  return sum > 0 ? (square * square) / sum : Number.POSITIVE_INFINITY;
}

/** √Σuᵢ² of independent contributions. [GUM §5.1.2 eq. 11b] */
export function combinedStandardUncertainty(standardUncertainties: readonly number[]): number {
  return Math.hypot(...standardUncertainties);
}

/**
 * The factor k for which ±k·u holds the value with probability p, when u is known with ν degrees of freedom: the
 * two-sided quantile of Student's t. [GUM §G.3]
 */
export function coverageFactor(probability: number, degreesOfFreedom: number): number {
  invariant(probability > 0 && probability < 1, "a coverage probability lies between 0 and 1");
  return studentQuantile((1 + probability) / 2, degreesOfFreedom);
}
