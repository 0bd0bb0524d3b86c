import { invariant } from "./invariant.ts";

/**
 * A ratio of two whole numbers, in lowest terms, denominator positive. What a person types is exact until it has been put
 * into the core's unit: so 13 thou are 0.3302 mm and 0.1 + 0.2 are 0.3, to the last digit of a double.
 */
export interface ExactRatio {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

export function ratio(numerator: bigint, denominator: bigint): ExactRatio {
  invariant(denominator > 0n, "the denominator of a ratio is positive");
  let [a, b] = [numerator < 0n ? -numerator : numerator, denominator];
  while (b > 0n) [a, b] = [b, a % b];
  return { numerator: numerator / a, denominator: denominator / a };
}

export function sumOf(a: ExactRatio, b: ExactRatio): ExactRatio {
  return ratio(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);
}

export function productOf(a: ExactRatio, b: ExactRatio): ExactRatio {
  return ratio(a.numerator * b.numerator, a.denominator * b.denominator);
}

/** Of a positive ratio. */
export function inverseOf(a: ExactRatio): ExactRatio {
  return ratio(a.denominator, a.numerator);
}

export function negativeOf(a: ExactRatio): ExactRatio {
  return { numerator: -a.numerator, denominator: a.denominator };
}

/** Correctly rounded while both whole numbers are below 2⁵³, else within three units in the last place; never −0. */
export function numberFromRatio(a: ExactRatio): number {
  return a.numerator === 0n ? 0 : Number(a.numerator) / Number(a.denominator);
}
