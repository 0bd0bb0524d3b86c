import { invariant } from "../base/invariant.ts";
import { normalCdf, normalPdf, normalQuantile } from "../numerics/distributions.ts";
import { integrate } from "../numerics/quadrature.ts";

/** Limits of what is permitted, or of what is accepted; a missing side is open. */
export interface Limits {
  readonly lower?: number;
  readonly upper?: number;
}

/**
 * The probability that a quantity lies within its tolerance, when what is known about it is normal.
 *
 *   p_c = Φ((T_U − y)/u) − Φ((T_L − y)/u)
 *
 * Source: [JCGM 106 §7.4 eq. 13]. With u = 0 it is 1 inside or on a limit and 0 outside.
 */
export function conformanceProbability(estimate: number, standardUncertainty: number, tolerance: Limits): number {
  invariant(standardUncertainty >= 0, "a standard uncertainty is never negative");
  const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = tolerance;
  if (standardUncertainty === 0) return estimate >= lower && estimate <= upper ? 1 : 0;
  return probabilityBetween((lower - estimate) / standardUncertainty, (upper - estimate) / standardUncertainty);
}

/**
 * The chance that a quantity does not lie beyond ±t on the side on which its estimate stands.
 *
 *   p = Φ((t − |y|)/u)
 *
 * Rejection is guarded where it is small: |y| ≥ t + z·u [JCGM 106 §8.3]. Unlike the probability of conformance it never
 * falls below a half for want of knowledge alone: a broad doubt about nothing reaches beyond t on both sides, and
 * conforms but seldom, though nothing that was read speaks against it.
 */
export function chanceNotBeyond(estimate: number, standardUncertainty: number, tolerance: number): number {
  invariant(standardUncertainty >= 0, "a standard uncertainty is never negative");
  const room = tolerance - Math.abs(estimate);
  if (standardUncertainty === 0) return room >= 0 ? 1 : 0;
  return normalCdf(room / standardUncertainty);
}

/** The guard band that gives a conformance probability against one limit: w = z_p·u. [JCGM 106 §8.3] */
export function guardBand(standardUncertainty: number, probability: number): number {
  return standardUncertainty * normalQuantile(probability);
}

/**
 * Limits drawn in by a guard band on either side (guarded acceptance for w > 0, guarded rejection for w < 0):
 * A_L = T_L + w, A_U = T_U − w. [JCGM 106 §8.3]
 */
export function acceptanceLimits(tolerance: Limits, guard: number): Limits {
  return {
    ...(tolerance.lower === undefined ? {} : { lower: tolerance.lower + guard }),
    ...(tolerance.upper === undefined ? {} : { upper: tolerance.upper - guard }),
  };
}

/** C_m = T/(4u), how fine the measurement is against a tolerance of width T. [JCGM 106 §7.6.3 eq. 18] */
export function measurementCapability(toleranceWidth: number, standardUncertainty: number): number {
  return toleranceWidth / (4 * standardUncertainty);
}

/** What is known about a quantity before it is measured: a density and the range outside of which it is negligible. */
export interface PriorDensity {
  readonly density: (value: number) => number;
  readonly from: number;
  readonly to: number;
  /** The narrowest feature of the density, for instance its standard deviation. */
  readonly scale: number;
}

/** Production, or belief, that is normal. Its far tails are cut at nine standard deviations, beyond 10⁻¹⁸. */
export function normalPrior(mean: number, standardDeviation: number): PriorDensity {
  invariant(standardDeviation > 0, "a normal density has a width");
  return {
    density: (value) => normalPdf((value - mean) / standardDeviation) / standardDeviation,
    from: mean - 9 * standardDeviation,
    to: mean + 9 * standardDeviation,
    scale: standardDeviation,
  };
}

export interface GlobalRisks {
  /** p_c of an item not yet measured. */
  readonly conforming: number;
  /** The probability that an item is accepted and does not conform. */
  readonly consumersRisk: number;
  /** The probability that an item is rejected and does conform. */
  readonly producersRisk: number;
  /** The probability that an item is accepted. */
  readonly accepted: number;
}

/**
 * The risks of accepting by a measurement, over all items and all that the measurement may say.
 *
 *   R_C = ∫_{η outside T} g₀(η)·F(η) dη,  R_P = ∫_{η inside T} g₀(η)·[1 − F(η)] dη
 *   F(η) = Φ((A_U − η)/u) − Φ((A_L − η)/u), the probability that an item of true value η is accepted
 *
 * g₀ is the prior density; the measurement is normal with standard uncertainty u, without bias. Source:
 * [JCGM 106 §9.5]. By Gauss–Legendre sums on panels no wider than u or the prior's scale.
 */
export function globalRisks(
  prior: PriorDensity,
  standardUncertainty: number,
  tolerance: Limits,
  acceptance: Limits = tolerance,
): GlobalRisks {
  invariant(standardUncertainty > 0, "a risk of measuring needs an uncertainty");
  const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY } = tolerance;
  const { lower: acceptFrom = Number.NEGATIVE_INFINITY, upper: acceptTo = Number.POSITIVE_INFINITY } = acceptance;
  const clamp = (value: number) => Math.min(Math.max(value, prior.from), prior.to);
  const width = Math.min(standardUncertainty, prior.scale);
  const over = (f: (value: number) => number, from: number, to: number) =>
    to > from ? integrate(f, from, to, Math.min(20_000, Math.max(4, Math.ceil((to - from) / width)))) : 0;
  const accept = (value: number) =>
    probabilityBetween((acceptFrom - value) / standardUncertainty, (acceptTo - value) / standardUncertainty);
  const acceptedAt = (value: number) => prior.density(value) * accept(value);
  const below = over(acceptedAt, prior.from, clamp(lower));
  const above = over(acceptedAt, clamp(upper), prior.to);
  const rejectedAt = (value: number) => prior.density(value) * (1 - accept(value));
  const producersRisk = over(rejectedAt, clamp(lower), clamp(upper));
  const conforming = over(prior.density, clamp(lower), clamp(upper));
  const consumersRisk = below + above;
  return { conforming, consumersRisk, producersRisk, accepted: conforming - producersRisk + consumersRisk };
}

/** Φ(b) − Φ(a), taken from the side on which no digits are lost. */
function probabilityBetween(a: number, b: number): number {
  return a > 0 ? normalCdf(-a) - normalCdf(-b) : normalCdf(b) - normalCdf(a);
}
