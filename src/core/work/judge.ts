import { OUT, WITHIN } from "../findings/evaluate.ts";
import { normalsFrom } from "../numerics/normals.ts";
import { rowSpace } from "../numerics/row-space.ts";
import { chanceNotBeyond } from "../standards/jcgm106.ts";
import { symmetricCoverageInterval } from "../uncertainty/monte-carlo.ts";
import { type Demand, reduceSamples } from "./demand.ts";
import type { DemandResult } from "./demand-result.ts";
import { limitedFunctions } from "./limited-functions.ts";
import { drawsOfState, type StateDraws } from "./state-draws.ts";
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
 * own distribution. The chance of being within a limit is a share of the draws [JCGM 106 §7]. What cannot be negative
 * never is: see `drawsOfState`. A demand is out when it is hardly ever within in the draws, and the estimate itself lies
 * beyond the limit by more than is left in doubt: see `liesBeyond`.
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
  const drawing = drawsOfState(state);
  const followed = demands.map((demand) => ({ ...followDemand(demand, drawing), numbers: new Float64Array(draws) }));
  const { normals } = drawing;
  const standing = { scene: drawing.scene, covariance: state.covariance };
  const stream = normalsFrom(seed, draws * normals);
  const draw = new Float64Array(drawing.width);
  let together = 0;
  for (let d = 0; d < draws; d++) {
    draw.set(stream.subarray(d * normals, (d + 1) * normals));
    drawing.complete(draw);
    let all = true;
    for (const demand of followed) {
      const number = numberAt(demand, draw);
      demand.numbers[d] = number;
      if (!(number <= demand.demand.limit)) all = false;
    }
    if (all) together += 1;
  }
  return {
    results: followed.map(({ demand, base, numbers }) =>
      resultOf(demand, reduceSamples(demand, base), numbers, standing),
    ),
    together: together / draws,
  };
}

/** Any will do. */
const defaultSeed = 106;

function resultOf(demand: Demand, value: number, numbers: Float64Array, state: WorkState): DemandResult {
  const sorted = Float64Array.from(numbers).sort();
  const within = numbers.reduce((count, number) => count + (number <= demand.limit ? 1 : 0), 0);
  const probability = within / numbers.length;
  const isOut = probability <= OUT && liesBeyond(demand, state);
  const verdict = probability >= WITHIN ? "within" : isOut ? "out" : "not known yet";
  const half = Math.floor((sorted.length - 1) / 2);
  const median = (sorted[half] + sorted[sorted.length - 1 - half]) / 2;
  return { demand, value, ...symmetricCoverageInterval({ sorted }, 0.95), median, probability, verdict };
}

/**
 * Whether one of the samples, or of a spread one less another, lies beyond the limit on its own side as surely as "out"
 * asks for. A doubt many times the limit makes a demand seldom kept, whatever the estimate: that says how little has been
 * read, and nothing against the machine.
 */
function liesBeyond(demand: Demand, state: WorkState): boolean {
  return limitedFunctions(demand, state).some(
    ({ value, variance }) => chanceNotBeyond(value, Math.sqrt(Math.max(0, variance)), demand.limit) <= OUT,
  );
}

/**
 * A demand's samples, laid out so that they follow a draw. Its many samples move in few ways, so a draw is brought to
 * those first.
 */
interface Followed {
  readonly demand: Demand;
  readonly base: Float64Array;
  /** The ways in which the samples move: one row a way, one column for each number of a draw. */
  readonly ways: Float64Array;
  /** How much of each way is in each sample, row by row. */
  readonly shares: Float64Array;
  /** Room for one draw. */
  readonly along: Float64Array;
  readonly values: Float64Array;
}

/** A way that moves the samples by less than this share of what moves them most is not followed. */
const idle = 1e-6;

function followDemand(demand: Demand, drawing: StateDraws): Followed {
  const samples = demand.samples(drawing.scene);
  const gains = new Float64Array(samples.length * drawing.width);
  samples.forEach(({ gradient }, i) => {
    gains.set(drawing.over(gradient), i * drawing.width);
  });
  const { rank, coordinates, basis } = rowSpace(gains, samples.length, drawing.width, idle);
  return {
    demand,
    base: Float64Array.from(samples, ({ value }) => value),
    ways: basis,
    shares: coordinates,
    along: new Float64Array(rank),
    values: new Float64Array(samples.length),
  };
}

/** The demand's number in one draw. */
function numberAt({ demand, base, ways, shares, along, values }: Followed, draw: Float64Array): number {
  along.fill(0);
  addProduct(ways, draw, along);
  values.set(base);
  addProduct(shares, along, values);
  return reduceSamples(demand, values);
}

/** Adds a matrix, row by row, times `by` to `to`. The sums go four at a time, so that none waits for the other. */
function addProduct(matrix: Float64Array, by: Float64Array, to: Float64Array): void {
  const width = by.length;
  const even = width - (width % 4);
  for (let i = 0; i < to.length; i++) {
    const at = i * width;
    let a = to[i];
    let b = 0;
    let c = 0;
    let d = 0;
    for (let j = 0; j < even; j += 4) {
      a += matrix[at + j] * by[j];
      b += matrix[at + j + 1] * by[j + 1];
      c += matrix[at + j + 2] * by[j + 2];
      d += matrix[at + j + 3] * by[j + 3];
    }
    for (let j = even; j < width; j++) a += matrix[at + j] * by[j];
    to[i] = a + b + (c + d);
  }
}
