import { normalHazardRatio } from "../numerics/distributions.ts";
import type { ReadBound } from "./observations.ts";

/** What a bound is worth: as much as a reading of `target` with the variance 1/`information`. */
export interface BoundWorth {
  readonly target: number;
  readonly information: number;
}

/** What all else says of the quantity that a bound is about. */
interface RestOfKnowledge {
  readonly mean: number;
  readonly variance: number;
}

// Far inside its bound a quantity learns nothing; a floor keeps the row finite and without effect.
const NOTHING = 1e-12;

export const worthNothing: BoundWorth = { target: 0, information: NOTHING };

/**
 * "At least b" felt with the standard uncertainty s has the likelihood Φ((h − b)/s). The normal reading that takes its
 * place leaves h with the mean and the variance that the likelihood itself leaves, given what the rest says, h ~ N(m, v).
 * The highest point of the likelihood and its curvature there would not do: where a bound cuts off half of what was
 * likely they claim to know h as well as the leaf is felt.
 *
 *   S = v + s²,  z = ±(m − b)/√S,  λ = φ(z)/Φ(z),  κ = λ(λ + z)/S
 *   mean left m ± vλ/√S, variance left v − v²κ;  hence  target = m ± √S/(λ + z),  information = κ/(1 − vκ)
 *
 * + for "at least", − for "at most". Source: moment matching, expectation propagation [Minka 2001 §3.2].
 */
function worthOfBound({ side, bound }: ReadBound, sd: number, { mean, variance }: RestOfKnowledge): BoundWorth {
  const sign = side === "atLeast" ? 1 : -1;
  const spread = Math.sqrt(variance + sd ** 2);
  const z = (sign * (mean - bound)) / spread;
  const lambda = normalHazardRatio(z);
  const kappa = (lambda * (lambda + z)) / spread ** 2;
  const information = kappa / (1 - variance * kappa);
  if (!(information > NOTHING)) return worthNothing;
  return { target: mean + (sign * spread) / (lambda + z), information };
}

/** A bound among others on the same machine. */
export interface BoundInPlay {
  readonly read: ReadBound;
  readonly softness: number;
  readonly worth: BoundWorth;
}

const MOST_SWEEPS = 100;
const SETTLED = 1e-8;

/**
 * What several bounds are worth together: one after the other is taken out, weighed against all else, and put back, until
 * none changes any more. Exact for one; two that hem in one quantity leave an eighth more doubt than there is.
 *
 * @param mean of the quantities that the bounds are about, all knowledge included, bounds by their present worth
 * @param covariance of them, n × n, row-major; both are written over
 */
export function settleBounds(
  bounds: readonly BoundInPlay[],
  mean: Float64Array,
  covariance: Float64Array,
): readonly BoundWorth[] {
  const n = bounds.length;
  const worths = bounds.map(({ worth }) => worth);
  for (let sweep = 0, change = 1; sweep < MOST_SWEEPS && change > SETTLED; sweep++) {
    change = 0;
    for (let i = 0; i < n; i++) {
      const before = worths[i];
      const variance = covariance[i * n + i];
      const rest = restWithout({ mean: mean[i], variance }, before);
      if (rest === null) continue;
      worths[i] = worthOfBound(bounds[i].read, bounds[i].softness, rest);
      const gained = worths[i].information - before.information;
      const pull = worths[i].information * worths[i].target - before.information * before.target - gained * mean[i];
      change = Math.max(change, Math.abs(gained) * variance, Math.abs(pull) * Math.sqrt(variance));
      putBack(mean, covariance, i, gained, pull);
    }
  }
  return worths;
}

/** Adds information about the i-th quantity: P′ = P − p pᵀ γ/(1 + γ Pᵢᵢ), m′ = m + p·pull/(1 + γ Pᵢᵢ), p the i-th column. */
function putBack(mean: Float64Array, covariance: Float64Array, i: number, gained: number, pull: number): void {
  const n = mean.length;
  const column = Float64Array.from(mean, (_, j) => covariance[j * n + i]);
  const share = 1 / (1 + gained * column[i]);
  for (let j = 0; j < n; j++) {
    mean[j] += column[j] * pull * share;
    for (let k = 0; k < n; k++) covariance[j * n + k] -= column[j] * column[k] * gained * share;
  }
}

/** The rest without what the bound was taken to be worth; null where rounding leaves nothing of it. */
function restWithout(all: RestOfKnowledge, worth: BoundWorth): RestOfKnowledge | null {
  const information = 1 / all.variance - worth.information;
  if (!(information > 1e-9 / all.variance)) return null;
  return {
    mean: (all.mean / all.variance - worth.target * worth.information) / information,
    variance: 1 / information,
  };
}
