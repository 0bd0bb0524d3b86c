import { invariant } from "../base/invariant.ts";

/** What a series of repeated readings of one thing says by itself. */
export interface SeriesEvaluation {
  readonly count: number;
  readonly mean: number;
  /** s of one reading, from n − 1; 0 for a single reading, which says nothing about it. */
  readonly standardDeviation: number;
  /** s/√n, the standard uncertainty of the mean. */
  readonly standardUncertainty: number;
  /** n − 1. */
  readonly degreesOfFreedom: number;
}

/**
 * Evaluates repeated independent readings.
 *
 *   x̄ = Σx/n,  s² = Σ(x − x̄)²/(n − 1),  u(x̄) = s/√n
 *
 * Source: [GUM §4.2]. The mean is taken first and the squares about it, so that a large common value costs no digits.
 *
 * @param readings at least one, finite
 */
export function evaluateSeries(readings: readonly number[]): SeriesEvaluation {
  const count = readings.length;
  invariant(count > 0, "a series has at least one reading");
  const mean = meanOf(readings);
  const standardDeviation = count > 1 ? Math.sqrt(sumOfSquaresAbout(readings, mean) / (count - 1)) : 0;
  return {
    count,
    mean,
    standardDeviation,
    standardUncertainty: standardDeviation / Math.sqrt(count),
    degreesOfFreedom: count - 1,
  };
}

/**
 * The standard deviation of one reading from several series that scatter alike, each about its own mean.
 *
 *   s_p² = Σ νₖ·sₖ² / Σ νₖ
 *
 * Source: [GUM §4.2.4].
 */
export function poolSeries(series: readonly (readonly number[])[]): {
  readonly standardDeviation: number;
  readonly degreesOfFreedom: number;
} {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const readings of series) {
    if (readings.length === 0) continue;
    squares += sumOfSquaresAbout(readings, meanOf(readings));
    degreesOfFreedom += readings.length - 1;
  }
  return { standardDeviation: degreesOfFreedom > 0 ? Math.sqrt(squares / degreesOfFreedom) : 0, degreesOfFreedom };
}

/**
 * Evaluates quantities that were read together, set by set, so that what they have in common shows.
 *
 *   u(x̄ᵢ, x̄ⱼ) = Σₖ(xᵢₖ − x̄ᵢ)(xⱼₖ − x̄ⱼ) / [n(n − 1)]
 *
 * Source: [GUM §5.2.3 eq. 17].
 *
 * @param columns one series for each quantity, all of the same length n ≥ 2, the k-th readings taken together
 * @returns the means, and the covariance of the means as a row-major square matrix
 */
export function evaluateTogether(columns: readonly (readonly number[])[]): {
  readonly means: readonly number[];
  readonly covariance: Float64Array;
  readonly degreesOfFreedom: number;
} {
  const size = columns.length;
  const count = columns[0]?.length ?? 0;
  invariant(count >= 2, "readings taken together need at least two sets");
  for (const column of columns) invariant(column.length === count, "every set holds one reading of each quantity");
  const means = columns.map(meanOf);
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = i; j < size; j++) {
      let sum = 0;
      for (let k = 0; k < count; k++) sum += (columns[i]![k]! - means[i]!) * (columns[j]![k]! - means[j]!);
      covariance[i * size + j] = sum / (count * (count - 1));
      covariance[j * size + i] = covariance[i * size + j]!;
    }
  }
  return { means, covariance, degreesOfFreedom: count - 1 };
}

/** r(i, j) of a covariance matrix, row-major n × n; 0 where one of the two is certain. */
export function correlationOf(covariance: Float64Array, n: number, i: number, j: number): number {
  const product = covariance[i * n + i]! * covariance[j * n + j]!;
  return product > 0 ? covariance[i * n + j]! / Math.sqrt(product) : 0;
}

function meanOf(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  const first = sum / values.length;
  // The mean of what is left brings back the digits lost where all values are large and nearly alike.
  let rest = 0;
  for (const value of values) rest += value - first;
  return first + rest / values.length;
}

function sumOfSquaresAbout(values: readonly number[], mean: number): number {
  let sum = 0;
  for (const value of values) sum += (value - mean) ** 2;
  return sum;
}
