import chiSquareCdfOf from "@stdlib/stats-base-dists-chisquare-cdf";
import chiSquareQuantileOf from "@stdlib/stats-base-dists-chisquare-quantile";
import fQuantileOf from "@stdlib/stats-base-dists-f-quantile";
import normalCdfOf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantileOf from "@stdlib/stats-base-dists-normal-quantile";
import tQuantileOf from "@stdlib/stats-base-dists-t-quantile";
import { invariant } from "../base/invariant.ts";

/** Density of the standard normal distribution, φ(z) = exp(−z²/2)/√(2π). */
export function normalPdf(z: number): number {
  return Math.exp(-0.5 * z * z) * inverseRootTwoPi;
}

/** Φ(z): the probability that a standard normal variable is at most z. */
export function normalCdf(z: number): number {
  return normalCdfOf(z, 0, 1);
}

/** The z with Φ(z) = p, for 0 < p < 1. */
export function normalQuantile(p: number): number {
  invariant(p > 0 && p < 1, "a quantile needs a probability between 0 and 1");
  // The package goes by 2p − 1, in which a small p is lost.
  return p < 1e-5 ? normalQuantileOfLog(Math.log(p)) : normalQuantileOf(p, 0, 1);
}

/**
 * The z with ln Φ(z) = `logProbability`, also where Φ(z) is too small for a double; for z below −1. ln Φ is concave, so
 * that Newton's steps from below, where ln Φ(z) < −z²/2, never pass the place.
 */
export function normalQuantileOfLog(logProbability: number): number {
  invariant(logProbability < -1.85, "a quantile by its logarithm is one of the lower tail");
  let z = -Math.sqrt(-2 * logProbability);
  for (let step = 0; step < 50; step++) {
    const next = z + (logProbability - logNormalCdf(z)) / normalHazardRatio(z);
    if (!(next > z)) return z;
    z = next;
  }
  return z;
}

/** The p-quantile of Student's t with ν > 0 degrees of freedom (not necessarily whole); ν = Infinity is the normal. */
export function studentQuantile(p: number, degreesOfFreedom: number): number {
  invariant(p > 0 && p < 1, "a quantile needs a probability between 0 and 1");
  invariant(degreesOfFreedom > 0, "degrees of freedom are positive");
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return normalQuantileOf(p, 0, 1);
  return tQuantileOf(p, degreesOfFreedom);
}

/** The probability that a χ² variable with ν > 0 degrees of freedom is at most x. */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
  invariant(degreesOfFreedom > 0, "degrees of freedom are positive");
  return x <= 0 ? 0 : chiSquareCdfOf(x, degreesOfFreedom);
}

/** The p-quantile of χ² with ν > 0 degrees of freedom. */
export function chiSquareQuantile(p: number, degreesOfFreedom: number): number {
  invariant(p >= 0 && p < 1, "a quantile needs a probability between 0 and 1");
  invariant(degreesOfFreedom > 0, "degrees of freedom are positive");
  return chiSquareQuantileOf(p, degreesOfFreedom);
}

/** The p-quantile of F with ν₁ and ν₂ degrees of freedom. */
export function fQuantile(p: number, numeratorDegrees: number, denominatorDegrees: number): number {
  invariant(p >= 0 && p < 1, "a quantile needs a probability between 0 and 1");
  invariant(numeratorDegrees > 0 && denominatorDegrees > 0, "degrees of freedom are positive");
  return fQuantileOf(p, numeratorDegrees, denominatorDegrees);
}

/**
 * φ(z)/Φ(z), the mean by which a standard normal variable lies below its limit when it is known to be below z: the
 * slope of ln Φ. Stable for every finite z; for z → −∞ it grows like −z, where φ and Φ themselves have long vanished.
 *
 * Below −5 by Laplace's continued fraction of the tail, Φ(−x)/φ(x) = 1/(x + 1/(x + 2/(x + 3/(x + …)))), closed form.
 */
export function normalHazardRatio(z: number): number {
  if (z > tailStart) return normalPdf(z) / normalCdf(z);
  return tailFraction(-z);
}

/** ln Φ(z), also where Φ(z) is too small for a double. */
export function logNormalCdf(z: number): number {
  if (z > tailStart) return Math.log(normalCdf(z));
  return -0.5 * z * z + Math.log(inverseRootTwoPi) - Math.log(tailFraction(-z));
}

const inverseRootTwoPi = 0.3989422804014327;

const tailStart = -5;

/** φ(x)/Φ(−x) = x + 1/(x + 2/(x + …)) for x ≥ 5, where 60 levels are more than a double can hold. */
function tailFraction(x: number): number {
  if (x === Number.POSITIVE_INFINITY) return x;
  let fraction = x;
  for (let level = 60; level >= 1; level--) fraction = x + level / fraction;
  return fraction;
}
