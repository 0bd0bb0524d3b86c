import { invariant } from "../base/invariant.ts";
import { OUT, WITHIN } from "../findings/evaluate.ts";
import type { Scene } from "../machine/kinematics.ts";
import { normalCdf } from "../numerics/distributions.ts";
import { farAboveNothing, placeAboveNothing } from "../numerics/normal-above-nothing.ts";
import { createRandom } from "../numerics/random.ts";
import { lowerRoot, symmetricCoverageInterval } from "../uncertainty/monte-carlo.ts";
import { type Demand, reduceSamples } from "./demand.ts";
import type { DemandResult } from "./demand-result.ts";
import type { WorkState } from "./work-state.ts";

/** Every demand with what is known of it, in the order asked, and how likely they are kept all together. */
export interface Judgement {
  readonly results: readonly DemandResult[];
  /** Share of the draws in which every demand is within its limit; 1 where nothing is demanded. */
  readonly together: number;
}

/**
 * Judges demands by draws of the state [JCGM 101 §7]: the samples follow each draw to first order about the estimate, and
 * a demand's number is reduced from all of its samples in the same draw, so that a maximum or a spread comes out with its
 * own distribution. The chance of being within a limit is a share of the draws [JCGM 106 §7].
 *
 * The state is normal with the covariance given, but for what cannot be negative, play and runout: there each draw z of
 * the margin is replaced by that of the normal cut off at nothing which has the same share below it; what hangs together
 * stays together.
 *
 * The same seed gives the same draws, whichever demands are asked about and in whatever order.
 *
 * @param draws 10,000 put a chance of 95 % to ±0.4 %, its 95 % coverage
 */
export function judgeDemands(
  state: WorkState,
  demands: readonly Demand[],
  draws = 10_000,
  seed = defaultSeed,
): Judgement {
  const { scene } = state;
  invariant(state.covariance.length === scene.size * scene.size, "a covariance is over the columns of its scene");
  const { base, gradients, parts } = sampleAll(demands, withoutNegatives(scene));
  const drawing = prepareDraws(state);
  const factors = timesRoot(gradients, drawing);
  const width = drawing.normals + drawing.cutOff.length;
  const random = createRandom(seed);
  const inputs = new Float64Array(width);
  const values = new Float64Array(base.length);
  const views = parts.map(([from, to]) => values.subarray(from, to));
  const numbers = demands.map(() => new Float64Array(draws));
  let together = 0;
  for (let draw = 0; draw < draws; draw++) {
    for (let j = 0; j < drawing.normals; j++) inputs[j] = random.normal();
    for (let k = 0; k < drawing.cutOff.length; k++) inputs[drawing.normals + k] = shiftOf(drawing, k, inputs);
    follow(values, base, factors, inputs);
    let all = true;
    for (let d = 0; d < demands.length; d++) {
      const number = reduceSamples(demands[d], views[d]);
      numbers[d][draw] = number;
      if (!(number <= demands[d].limit)) all = false;
    }
    if (all) together += 1;
  }
  const results = demands.map((demand, d) => {
    const [from, to] = parts[d];
    return resultOf(demand, reduceSamples(demand, base.subarray(from, to)), numbers[d]);
  });
  return { results, together: together / draws };
}

/** Any will do. */
const defaultSeed = 106;

function resultOf(demand: Demand, value: number, numbers: Float64Array): DemandResult {
  const sorted = Float64Array.from(numbers).sort();
  const within = numbers.reduce((count, number) => count + (number <= demand.limit ? 1 : 0), 0);
  const probability = within / numbers.length;
  const verdict = probability >= WITHIN ? "within" : probability <= OUT ? "out" : "not known yet";
  const half = Math.floor((sorted.length - 1) / 2);
  const median = (sorted[half] + sorted[sorted.length - 1 - half]) / 2;
  return { demand, value, ...symmetricCoverageInterval({ sorted }, 0.95), median, probability, verdict };
}

interface AllSamples {
  readonly base: Float64Array;
  readonly gradients: readonly Float64Array[];
  /** Samples of each demand, first and past the last. */
  readonly parts: readonly (readonly [from: number, to: number])[];
}

function sampleAll(demands: readonly Demand[], scene: Scene): AllSamples {
  const all = demands.map((demand) => demand.samples(scene));
  let from = 0;
  const parts = all.map((samples) => {
    const part = [from, from + samples.length] as const;
    from += samples.length;
    return part;
  });
  const flat = all.flat();
  return { base: Float64Array.from(flat, ({ value }) => value), gradients: flat.map((s) => s.gradient), parts };
}

/** What a draw is made of. Columns without variance stay where they are. */
interface Drawing {
  /** Columns of the scene that have variance. */
  readonly columns: Int32Array;
  readonly normals: number;
  /** Over the columns with variance: L of LLᵀ = their covariance. */
  readonly root: Float64Array;
  readonly cutOff: readonly CutOff[];
}

/** A column that is cut off at nothing. */
interface CutOff {
  readonly column: number;
  /** Its row in the root. */
  readonly row: number;
  readonly mean: number;
  readonly sd: number;
}

function prepareDraws({ scene, covariance }: WorkState): Drawing {
  const n = scene.size;
  const columns = Int32Array.from(Array.from({ length: n }, (_, i) => i).filter((i) => covariance[i * n + i] > 0));
  const own = new Float64Array(columns.length ** 2);
  columns.forEach((i, row) => {
    columns.forEach((j, column) => {
      own[row * columns.length + column] = covariance[i * n + j];
    });
  });
  const negatives = new Set(neverNegativeColumns(scene));
  const cutOff = Array.from(columns, (column, row) => {
    const mean = stateAt(scene, column);
    return { column, row, mean, sd: Math.sqrt(covariance[column * n + column]) };
  }).filter(({ column, mean, sd }) => negatives.has(column) && mean < farAboveNothing * sd);
  return { columns, normals: columns.length, root: lowerRoot(own, columns.length), cutOff };
}

/** How far the cut-off draw of a column lies from where the samples were taken, less its plain draw. */
function shiftOf({ root, normals, cutOff }: Drawing, k: number, z: Float64Array): number {
  const { row, mean, sd } = cutOff[k];
  let plain = 0;
  for (let j = 0; j <= row; j++) plain += root[row * normals + j] * z[j];
  return placeAboveNothing(mean, sd, normalCdf(-plain / sd)) - Math.max(0, mean) - plain;
}

/** J·[L, 1 for each column cut off], one row a sample. */
function timesRoot(gradients: readonly Float64Array[], { columns, normals, root, cutOff }: Drawing): Float64Array {
  const width = normals + cutOff.length;
  const factors = new Float64Array(gradients.length * width);
  gradients.forEach((gradient, sample) => {
    const at = sample * width;
    for (let i = 0; i < normals; i++) {
      const slope = gradient[columns[i]];
      if (slope === 0) continue;
      for (let j = 0; j <= i; j++) factors[at + j] += slope * root[i * normals + j];
    }
    cutOff.forEach(({ column }, k) => {
      factors[at + normals + k] = gradient[column];
    });
  });
  return factors;
}

/** values = base + factors·inputs; four sums at a time, so that none waits for the other. */
function follow(values: Float64Array, base: Float64Array, factors: Float64Array, inputs: Float64Array): void {
  const width = inputs.length;
  const even = width - (width % 4);
  for (let i = 0; i < values.length; i++) {
    const at = i * width;
    let a = base[i];
    let b = 0;
    let c = 0;
    let d = 0;
    let j = 0;
    for (; j < even; j += 4) {
      a += factors[at + j] * inputs[j];
      b += factors[at + j + 1] * inputs[j + 1];
      c += factors[at + j + 2] * inputs[j + 2];
      d += factors[at + j + 3] * inputs[j + 3];
    }
    for (; j < width; j++) a += factors[at + j] * inputs[j];
    values[i] = a + b + (c + d);
  }
}

/** Columns of play and runout, of now and of the moment in which the bed was skimmed. */
function neverNegativeColumns({ machine, size, skim }: Scene): readonly number[] {
  const own = machine.modes.flatMap(({ neverNegative }, i) => (neverNegative ? [i] : []));
  if (size === 0) return [];
  return skim ? [...own, ...own.map((i) => skim.column + i)] : own;
}

function stateAt({ machine, state, skim }: Scene, column: number): number {
  return column < machine.parameters.length || !skim ? state[column] : skim.state[column - skim.column];
}

/** The estimate with play and runout that were found below nothing put to nothing. */
function withoutNegatives(scene: Scene): Scene {
  const { machine, skim } = scene;
  const raised = (state: Float64Array) =>
    Float64Array.from(state, (value, i) => (machine.modes[i]?.neverNegative ? Math.max(0, value) : value));
  return { ...scene, state: raised(scene.state), skim: skim && { ...skim, state: raised(skim.state) } };
}
