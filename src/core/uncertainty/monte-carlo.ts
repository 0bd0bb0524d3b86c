import { invariant } from "../base/invariant.ts";
import type { Random } from "../numerics/random.ts";
import { drawFrom, type InputDistribution } from "./input-distribution.ts";
import type { MeasurementModel } from "./propagation.ts";

/** What many trials of a model came to. */
export interface Simulation {
  readonly mean: number;
  readonly standardUncertainty: number;
  /** Every trial's result, in rising order. */
  readonly sorted: Float64Array;
}

export interface CoverageInterval {
  readonly low: number;
  readonly high: number;
}

/**
 * Propagates distributions through a model by drawing the inputs many times.
 *
 * Source: [JCGM 101 §7]. The same seed gives the same result. The mean and standard deviation are gathered in one pass
 * about a running mean.
 *
 * @param inputs independent of each other; correlated ones are drawn together by the caller and given to `simulateDraws`
 * @param trials 10⁶ give two good digits of a 95 % interval
 */
export function simulate(
  model: MeasurementModel,
  inputs: readonly InputDistribution[],
  trials: number,
  random: Random,
): Simulation {
  const values = new Array<number>(inputs.length).fill(0);
  return simulateDraws(() => {
    for (let i = 0; i < inputs.length; i++) values[i] = drawFrom(inputs[i]!, random);
    return model(values);
  }, trials);
}

/** Gathers the results of any drawing, one trial a call. */
export function simulateDraws(draw: () => number, trials: number): Simulation {
  invariant(Number.isInteger(trials) && trials >= 2, "a simulation takes at least two trials");
  const sorted = new Float64Array(trials);
  let mean = 0;
  let squares = 0;
  for (let trial = 0; trial < trials; trial++) {
    const value = draw();
    sorted[trial] = value;
    const difference = value - mean;
    mean += difference / (trial + 1);
    squares += difference * (value - mean);
  }
  sorted.sort();
  return { mean, standardUncertainty: Math.sqrt(squares / (trials - 1)), sorted };
}

/** The interval that leaves out as much probability on the left as on the right. [JCGM 101 §7.7.2] */
export function symmetricCoverageInterval(
  { sorted }: Pick<Simulation, "sorted">,
  probability: number,
): CoverageInterval {
  const inside = countInside(sorted.length, probability);
  const first = Math.round((sorted.length - inside) / 2);
  return { low: sorted[first]!, high: sorted[Math.min(first + inside, sorted.length - 1)]! };
}

/** The narrowest interval that holds the given probability. [JCGM 101 §7.7.4] */
export function shortestCoverageInterval(simulation: Simulation, probability: number): CoverageInterval {
  const { sorted } = simulation;
  const inside = countInside(sorted.length, probability);
  let best = 0;
  for (let first = 1; first + inside < sorted.length; first++) {
    if (sorted[first + inside]! - sorted[first]! < sorted[best + inside]! - sorted[best]!) best = first;
  }
  return { low: sorted[best]!, high: sorted[best + inside]! };
}

/**
 * A draw of several normal values with a given covariance: x = m + L·z, LLᵀ the covariance. [JCGM 101 §6.4.8]
 *
 * @param covariance n × n, row-major, positive semi-definite
 */
export function correlatedNormals(
  means: readonly number[],
  covariance: Float64Array,
  random: Random,
): () => readonly number[] {
  const n = means.length;
  const root = lowerRoot(covariance, n);
  const z = new Float64Array(n);
  return () => {
    for (let i = 0; i < n; i++) z[i] = random.normal();
    return means.map((mean, i) => {
      let sum = mean;
      for (let j = 0; j <= i; j++) sum += root[i * n + j]! * z[j]!;
      return sum;
    });
  };
}

function countInside(trials: number, probability: number): number {
  invariant(probability > 0 && probability < 1, "a coverage probability lies between 0 and 1");
  return Math.min(Math.round(probability * trials), trials - 1);
}

/** L of LLᵀ = the matrix, n × n, row-major, positive semi-definite; a direction without variance keeps zeros. */
export function lowerRoot(matrix: Float64Array, n: number): Float64Array {
  const root = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    let rest = matrix[j * n + j]!;
    for (let k = 0; k < j; k++) rest -= root[j * n + k]! ** 2;
    invariant(rest > -1e-9 * Math.abs(matrix[j * n + j]!) - 1e-300, "the covariance is not positive");
    const pivot = rest > 1e-14 * matrix[j * n + j]! ? Math.sqrt(rest) : 0;
    root[j * n + j] = pivot;
    if (pivot === 0) continue;
    for (let i = j + 1; i < n; i++) {
      let sum = matrix[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= root[i * n + k]! * root[j * n + k]!;
      root[i * n + j] = sum / pivot;
    }
  }
  return root;
}
