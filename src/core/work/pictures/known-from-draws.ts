import type { Dual } from "../../numerics/dual.ts";
import { createRandom } from "../../numerics/random.ts";
import type { WorkState } from "../work-state.ts";
import type { KnownValue } from "./known-value.ts";

/** Enough for an interval's ends to three hundredths of its width. */
const DRAWS = 2000;

/**
 * A largest or a spread over samples: the number at the estimate, and as U the way from it to the farther end of the
 * equal-tailed 95 % interval of draws of the state, the samples followed to first order [JCGM 101 §7.7]. On a machine
 * that is hardly known a spread is nothing at the estimate and is not likely to be nothing: U says so, where the first
 * order at the places that are farthest apart would not.
 *
 * @param reduce from the samples' values to one number
 */
export function knownFromDraws(
  state: WorkState,
  samples: readonly Dual[],
  reduce: (values: readonly number[]) => number,
): KnownValue {
  const value = reduce(samples.map((sample) => sample.value));
  const results = drawsOf(state)
    .map((draw) => reduce(samples.map((sample) => sample.value + along(sample.gradient, draw))))
    .sort((a, b) => a - b);
  const low = results[Math.floor(0.025 * (DRAWS - 1))];
  const high = results[Math.ceil(0.975 * (DRAWS - 1))];
  return { value, expandedUncertainty: Math.max(0, high - value, value - low) };
}

export function spreadOf(values: readonly number[]): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low;
}

const known = new WeakMap<WorkState, readonly Draw[]>();

/** One draw of what the state may be off by: the columns that are not nothing, and their values. */
interface Draw {
  readonly columns: readonly number[];
  readonly values: Float64Array;
}

/**
 * The same draws for all pictures of one state: L·z with L·Lᵀ the covariance and z standard normal, each with its
 * opposite, so that what is linear has its interval in its middle.
 */
function drawsOf(state: WorkState): readonly Draw[] {
  const before = known.get(state);
  if (before) return before;
  const n = state.scene.size;
  const root = lowerRoot(state.covariance, n);
  const random = createRandom(1);
  const columns = Array.from({ length: n }, (_, i) => i).filter((i) => state.covariance[i * n + i] > 0);
  const draws = Array.from({ length: DRAWS / 2 }, () => {
    const normals = Array.from({ length: n }, () => random.normal());
    const values = Float64Array.from(columns, (i) => rowTimes(root, i, n, normals));
    return [
      { columns, values },
      { columns, values: values.map((value) => -value) },
    ];
  }).flat();
  known.set(state, draws);
  return draws;
}

function rowTimes(root: Float64Array, row: number, n: number, normals: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k <= row; k++) sum += root[row * n + k] * normals[k];
  return sum;
}

function along(gradient: Float64Array, { columns, values }: Draw): number {
  let sum = 0;
  for (let k = 0; k < columns.length; k++) sum += gradient[columns[k]] * values[k];
  return sum;
}

/** Cholesky's triangle of a covariance; what the columns before determine gets a row that ends in nothing. */
function lowerRoot(covariance: Float64Array, n: number): Float64Array {
  const root = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = covariance[i * n + j];
      for (let k = 0; k < j; k++) sum -= root[i * n + k] * root[j * n + k];
      if (i === j) root[i * n + i] = sum > 1e-12 * covariance[i * n + i] ? Math.sqrt(sum) : 0;
      else root[i * n + j] = root[j * n + j] > 0 ? sum / root[j * n + j] : 0;
    }
  }
  return root;
}
