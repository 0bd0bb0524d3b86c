import { combine, type Dual, weightedSum } from "../numerics/dual.ts";

/**
 * What a least-squares fit leaves of the samples: s − Σₖ cₖ·(Σᵢ wᵢ cₖᵢ sᵢ)/(Σᵢ wᵢ cₖᵢ²). Closed form.
 *
 * @param terms cₖ, one number for each sample; they must be orthogonal to one another under the weights
 * @param weights wᵢ; all alike when left out
 */
export function restOfFit(
  samples: readonly Dual[],
  terms: readonly (readonly number[])[],
  weights: readonly number[] = samples.map(() => 1),
): readonly Dual[] {
  return terms.reduce((rest, term) => {
    const squares = term.reduce((sum, c, i) => sum + weights[i] * c * c, 0);
    const amount = weightedSum(
      term.map((c, i) => (weights[i] * c) / squares),
      samples,
    );
    return rest.map((sample, i) => combine(1, sample, -term[i], amount));
  }, samples);
}
