import { invariant } from "../base/invariant.ts";
import type { Random } from "../numerics/random.ts";

/** What is known about one input of a measurement model. */
export type InputDistribution =
  /** Nothing left to know. */
  | { readonly kind: "fixed"; readonly value: number }
  | { readonly kind: "normal"; readonly mean: number; readonly standardUncertainty: number }
  /** Everywhere between two limits alike. */
  | { readonly kind: "rectangular"; readonly low: number; readonly high: number }
  /** The sum of two equal rectangular ones: most likely in the middle. */
  | { readonly kind: "triangular"; readonly low: number; readonly high: number }
  /** Between two limits that are themselves only known to ± limitHalfWidth. */
  | {
      readonly kind: "curvilinear-trapezoid";
      readonly low: number;
      readonly high: number;
      readonly limitHalfWidth: number;
    }
  /** A value that swings between two limits like a sine: most often near them. */
  | { readonly kind: "arcsine"; readonly low: number; readonly high: number }
  /** A mean from few readings: mean + scale·t(ν). */
  | { readonly kind: "student"; readonly mean: number; readonly scale: number; readonly degreesOfFreedom: number };

/**
 * One draw from a distribution.
 *
 * Source: [JCGM 101 §6.4], with the trapezoid's limits drawn first [JCGM 101 §6.4.3.4] and χ² made from a gamma draw.
 */
export function drawFrom(distribution: InputDistribution, random: Random): number {
  switch (distribution.kind) {
    case "fixed":
      return distribution.value;
    case "normal":
      return distribution.mean + distribution.standardUncertainty * random.normal();
    case "rectangular":
      return distribution.low + (distribution.high - distribution.low) * random.uniform();
    case "triangular": {
      const share = (random.uniform() + random.uniform()) / 2;
      return distribution.low + (distribution.high - distribution.low) * share;
    }
    case "curvilinear-trapezoid": {
      const shift = distribution.limitHalfWidth * (2 * random.uniform() - 1);
      const low = distribution.low + shift;
      const high = distribution.high - shift;
      return low + (high - low) * random.uniform();
    }
    case "arcsine": {
      const half = (distribution.high - distribution.low) / 2;
      return distribution.low + half + half * Math.sin(2 * Math.PI * random.uniform());
    }
    case "student": {
      const { mean, scale, degreesOfFreedom } = distribution;
      const chiSquare = 2 * drawGamma(degreesOfFreedom / 2, random);
      return mean + (scale * random.normal()) / Math.sqrt(chiSquare / degreesOfFreedom);
    }
  }
}

/** The mean of a distribution. */
export function meanOfDistribution(distribution: InputDistribution): number {
  switch (distribution.kind) {
    case "fixed":
      return distribution.value;
    case "normal":
    case "student":
      return distribution.mean;
    default:
      return (distribution.low + distribution.high) / 2;
  }
}

/**
 * The standard deviation of a distribution, of half width a:
 *
 *   rectangular a/√3 · triangular a/√6 · arcsine a/√2 · trapezoid √(a²/3 + d²/9) · Student scale·√(ν/(ν − 2))
 *
 * Source: [JCGM 101 §6.4], [GUM §4.3]; infinite for Student with ν ≤ 2.
 */
export function standardUncertaintyOfDistribution(distribution: InputDistribution): number {
  switch (distribution.kind) {
    case "fixed":
      return 0;
    case "normal":
      return distribution.standardUncertainty;
    case "rectangular":
      return (distribution.high - distribution.low) / Math.sqrt(12);
    case "triangular":
      return (distribution.high - distribution.low) / Math.sqrt(24);
    case "arcsine":
      return (distribution.high - distribution.low) / Math.sqrt(8);
    case "curvilinear-trapezoid":
      return Math.sqrt((distribution.high - distribution.low) ** 2 / 12 + distribution.limitHalfWidth ** 2 / 9);
    case "student": {
      const { scale, degreesOfFreedom } = distribution;
      return degreesOfFreedom > 2
        ? scale * Math.sqrt(degreesOfFreedom / (degreesOfFreedom - 2))
        : Number.POSITIVE_INFINITY;
    }
  }
}

/**
 * A draw from the gamma distribution of given shape and rate 1, by squeezing a cubed normal draw; shapes below 1 are
 * brought up by one and back by a power of a uniform draw. Source: [Marsaglia Tsang].
 */
function drawGamma(shape: number, random: Random): number {
  invariant(shape > 0, "the shape of a gamma distribution is positive");
  if (shape < 1) return drawGamma(shape + 1, random) * (1 - random.uniform()) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = random.normal();
    const root = 1 + c * x;
    if (root <= 0) continue;
    const v = root * root * root;
    const u = 1 - random.uniform();
    if (Math.log(u) < 0.5 * x * x + d * (1 - v + Math.log(v))) return d * v;
  }
}
