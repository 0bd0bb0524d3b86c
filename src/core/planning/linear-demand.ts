import type { Dual } from "../numerics/dual.ts";
import { dot, quadraticForm } from "../numerics/symmetric.ts";
import type { Demand } from "../work/demand.ts";
import type { WorkState } from "../work/work-state.ts";
import type { Lever } from "./lever.ts";

/** One sample of a demand near a reference state, in the demand's unit. */
export interface LinearSample {
  readonly value: number;
  /** Change per unit of each lever. */
  readonly perLever: Float64Array;
  /** Guard against what is not known now. */
  readonly guard: number;
  /** What touching each lever adds to the guard. */
  readonly touched: Float64Array;
}

/** A demand near a reference state: samples whose size counts, or areas whose spread counts. */
export interface LinearDemand {
  readonly demand: Demand;
  readonly areas: readonly {
    readonly samples: readonly LinearSample[];
    /** For a spread: the guard of the whole area and what touching each lever adds to it. */
    readonly guard: number;
    readonly touched: Float64Array;
  }[];
}

/** One-sided 97.7 % of a normal: work asks for several demands at once, and all of them are to be within. */
export const COVERAGE = 2;
/** No guard takes more than this share of the limit: else what is not known would forbid every move. */
const MOST_OF_LIMIT = 0.5;
/** Spreads: times the largest standard deviation of a sample against the mean of all. */
const SPREAD_COVERAGE = 1.8;
/** Scatters of several moves add up as squares; the programme is linear and takes this share of the plain sum. */
const PLAIN_SUM = 0.6;

/**
 * @param reference where to linearise: state and gradients of the moved machine
 * @param covariance what is not known now, over the columns of `fold`ed gradients
 * @param fold brings a sample's gradient to the machine's parameters of now (first) and what else has variance
 */
export function linearDemand(
  demand: Demand,
  reference: WorkState,
  covariance: Float64Array,
  levers: readonly Lever[],
  fold: (gradient: Float64Array) => FoldedGradient,
): LinearDemand {
  const duals = demand.samples(reference.scene);
  const most = MOST_OF_LIMIT * demand.limit;
  if (demand.form === "largest") {
    const samples = duals.map((dual) => {
      const folded = fold(dual.gradient);
      const sd = Math.sqrt(quadraticForm(covariance, folded.gradient) + folded.extraVariance);
      return sample(dual, folded.gradient, levers, Math.min(most, COVERAGE * sd), COVERAGE, most);
    });
    return { demand, areas: [{ samples, guard: 0, touched: new Float64Array(levers.length) }] };
  }
  const areas = areasOf(demand, duals).map((part) => {
    const folded = part.map(({ gradient }) => fold(gradient));
    const mean = meanOf(folded.map(({ gradient }) => gradient));
    const against = folded.map(({ gradient }) => gradient.map((g, i) => g - mean[i]));
    const variances = against.map((g, i) => quadraticForm(covariance, g) + folded[i].extraVariance);
    const guard = Math.min(most, SPREAD_COVERAGE * Math.sqrt(Math.max(...variances)));
    const touched = new Float64Array(levers.length);
    for (const g of against) {
      levers.forEach((lever, l) => {
        const more = Math.min(most - guard, PLAIN_SUM * SPREAD_COVERAGE * touchSd(lever, g));
        touched[l] = Math.max(touched[l], more);
      });
    }
    const none = new Float64Array(levers.length);
    const samples = part.map((dual, i) => ({
      value: dual.value,
      perLever: Float64Array.from(levers, ({ change }) => dotFirst(folded[i].gradient, change)),
      guard: 0,
      touched: none,
    }));
    return { samples, guard, touched };
  });
  return { demand, areas };
}

export interface FoldedGradient {
  readonly gradient: Float64Array;
  /** Of what is not among the columns, e.g. what a skim leaves to chance. */
  readonly extraVariance: number;
}

function sample(
  dual: Dual,
  gradient: Float64Array,
  levers: readonly Lever[],
  guard: number,
  coverage: number,
  most: number,
): LinearSample {
  return {
    value: dual.value,
    perLever: Float64Array.from(levers, ({ change }) => dotFirst(gradient, change)),
    guard,
    touched: Float64Array.from(levers, (lever) =>
      Math.min(most - guard, PLAIN_SUM * coverage * touchSd(lever, gradient)),
    ),
  };
}

/** Standard deviation that moving the lever leaves in a function with this gradient. */
function touchSd({ adjuster, change, frees }: Lever, gradient: Float64Array): number {
  const scatter = adjuster.kind === "assign" ? 0 : adjuster.sd * dotFirst(gradient, change);
  let freed = 0;
  for (let i = 0; i < frees.length; i++) freed += (gradient[i] * frees[i]) ** 2;
  return Math.sqrt(scatter ** 2 + freed);
}

/** A lever knows the machine's parameters only; they are the first columns. */
function dotFirst(gradient: Float64Array, change: Float64Array): number {
  return dot(change, gradient);
}

function meanOf(gradients: readonly Float64Array[]): Float64Array {
  const mean = new Float64Array(gradients[0].length);
  for (const gradient of gradients) for (let i = 0; i < mean.length; i++) mean[i] += gradient[i] / gradients.length;
  return mean;
}

function areasOf({ groups, enoughToPlan }: Demand, duals: readonly Dual[]): readonly (readonly Dual[])[] {
  const areas = groups ?? [[0, duals.length] as const];
  const isEnough = (_: Dual, at: number) => enoughToPlan?.has(at) ?? true;
  return areas.map(([from, to]) => duals.slice(from, to).filter((dual, i) => isEnough(dual, from + i)));
}
