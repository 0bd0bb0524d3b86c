import { OUT, WITHIN } from "../findings/evaluate.ts";
import type { Estimate } from "../fit/estimate.ts";
import { gradientOverVariables } from "../fit/present-scene.ts";
import { homingYaw } from "../machine/machine.ts";
import { skimLeaves } from "../machine/skimmed-bed.ts";
import { chanceNotBeyond, conformanceProbability } from "../standards/jcgm106.ts";
import type { Demand } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import { type LimitedFunction, limitedFunctions } from "../work/limited-functions.ts";
import { type WorkState, workState } from "../work/work-state.ts";
import { skimmedState } from "./planned-state.ts";

/**
 * A smooth function of the machine that may be what decides a demand: one of its samples, or one less another. Its
 * variance is weight·(what readings can tell + what none can), so that those of one demand add up to the decision's.
 */
export interface DecidingFunction {
  readonly demand: Demand;
  /** Over all variables of the problem. */
  readonly gradient: Float64Array;
  /** Of the homing still to come, and of what a skim leaves to chance. */
  readonly beyondReading: number;
  /** All that is not known of it in the state in which the work is cut, with what moves before leave to chance. */
  readonly variance: number;
  readonly weight: number;
}

/** What keeps a demand from being decided. */
export interface Decision {
  readonly demand: Demand;
  /** 1 where in and out are equally likely, 0 where it is surely in or surely out. */
  readonly undecided: number;
  readonly functions: readonly DecidingFunction[];
}

/** In what state the work will be cut: with the bed as it is, or skimmed before. */
export interface Standing {
  readonly state: WorkState;
  /** A gradient over the state's columns as one over all variables of the problem, without what no reading tells. */
  overVariables(gradient: Float64Array): Float64Array;
  /** Variance of what no reading tells. */
  beyondReading(gradient: Float64Array): number;
}

/** What decides a demand is known well enough when its standard uncertainty is no more than this share of the limit. */
export const DECIDING_SHARE = 1 / 3;

/** So many samples, or pairs of them, stand for a demand; the others hardly add to it. */
const MOST_FUNCTIONS = 20;

/**
 * The samples that may decide a demand, or for a spread the pairs of samples. Each counts by the square of how undecided
 * it is by itself: one that lies close to its limit outweighs many that are well inside. Of those the twenty with the
 * largest share in the variance stand for all.
 *
 * The demand itself is surely in from a chance of 95 % on. It is surely out where some sample is beyond the limit by as
 * much, whatever else: that a broad doubt reaches far beyond the limit on both sides is no reason to stop measuring.
 */
export function decisionOf(standing: Standing, { demand, probability }: DemandResult): Decision {
  const { state } = standing;
  const candidates = candidatesOf(demand, state);
  const chance = beliefIn(probability, Math.min(1, ...candidates.map(({ notBeyond }) => notBeyond)));
  const certain = 4 * WITHIN * OUT;
  const undecided = Math.max(0, (4 * chance * (1 - chance) - certain) / (1 - certain));
  // Where all lie far within, none decides more than another: then what is known of each counts alike.
  const allAlike = candidates.every(({ importance, variance }) => importance * variance === 0);
  const chosen = candidates
    .map((candidate) => (allAlike ? { ...candidate, importance: 1 } : candidate))
    .map((candidate) => ({ ...candidate, share: candidate.importance * candidate.variance }))
    .filter(({ share }) => share > 0)
    // Sorting keeps the order of equals, so that the same machine has the same answer everywhere.
    .sort((a, b) => b.share - a.share)
    .slice(0, MOST_FUNCTIONS);
  const total = chosen.reduce((sum, { importance }) => sum + importance, 0);
  const functions = chosen.map(({ gradient, variance, importance }) => ({
    demand,
    variance,
    gradient: standing.overVariables(gradient()),
    beyondReading: standing.beyondReading(gradient()),
    weight: importance / total,
  }));
  return { demand, undecided, functions };
}

interface Candidate extends LimitedFunction {
  /** Square of 4q(1 − q), q the belief that this by itself is within. */
  readonly importance: number;
  /** Chance of not being beyond the limit on the side on which it stands. */
  readonly notBeyond: number;
}

function candidatesOf(demand: Demand, state: WorkState): readonly Candidate[] {
  return limitedFunctions(demand, state).map((limited) => {
    const { value, variance } = limited;
    const sd = Math.sqrt(Math.max(0, variance));
    const notBeyond = chanceNotBeyond(value, sd, demand.limit);
    const within = conformanceProbability(value, sd, { lower: -demand.limit, upper: demand.limit });
    const q = beliefIn(within, notBeyond);
    const importance = sd > 0 ? (4 * q * (1 - q)) ** 2 : 0;
    return { ...limited, importance, notBeyond };
  });
}

/** A chance of being within, that falls below a half only as far as something is beyond the limit. */
function beliefIn(within: number, notBeyond: number): number {
  return within >= 0.5 ? within : Math.min(0.5, Math.max(within, notBeyond));
}

/** Variance of the decision from the variances of its functions, and what is beyond reading. */
export function decisionVariance(functions: readonly DecidingFunction[], variances: ArrayLike<number>): number {
  return functions.reduce((sum, f, i) => sum + f.weight * (variances[i] + f.beyondReading), 0);
}

/** Below this share of the heaviest a function does not decide. */
const LEAST_WEIGHT = 0.1;

/** The largest variance of those that may decide: a demand is only known as well as the least known of them. */
export function worstVariance(functions: readonly DecidingFunction[], variances: ArrayLike<number>): number {
  return largestThatDecides(functions, (f, i) => variances[i] + f.beyondReading);
}

/** The same of all that is not known where the work is cut. */
export function worstVarianceThere(functions: readonly DecidingFunction[]): number {
  return largestThatDecides(functions, ({ variance }) => variance);
}

function largestThatDecides(
  functions: readonly DecidingFunction[],
  varianceOf: (f: DecidingFunction, index: number) => number,
): number {
  const heaviest = functions.reduce((most, { weight }) => Math.max(most, weight), 0);
  return functions.reduce(
    (worst, f, i) => (f.weight < LEAST_WEIGHT * heaviest ? worst : Math.max(worst, varianceOf(f, i))),
    0,
  );
}

/**
 * The machine as work meets it.
 *
 * @param planned where moves are expected to leave it; as it is when left out
 */
export function standingOf(estimate: Estimate, willSkim: boolean, planned?: WorkState): Standing {
  const now = workState(estimate);
  const { machine } = now.scene;
  const home = machine.parameterIndex.get(homingYaw) as number;
  const { homingSd } = estimate.problem;
  const asItIs: Standing = {
    state: now,
    overVariables(gradient) {
      const told = Float64Array.from(gradient);
      told[home] = 0;
      return gradientOverVariables(estimate, told);
    },
    beyondReading: (gradient) => (gradient[home] * homingSd) ** 2,
  };
  const standing = willSkim ? skimmed(asItIs, home) : asItIs;
  return planned ? { ...standing, state: planned } : standing;
}

/** A skimmed bed is what the motion is: what is not known of it is told by readings of the motion of now. */
function skimmed(asItIs: Standing, home: number): Standing {
  const { machine, size } = asItIs.state.scene;
  const count = machine.parameters.length;
  const left = [...skimLeaves(machine)].flatMap(([id, sd]) => {
    const index = machine.parameterIndex.get(id);
    return index === undefined ? [] : [[index, sd] as const];
  });
  const fold = (gradient: Float64Array) => {
    const folded = new Float64Array(size);
    for (let i = 0; i < count; i++) folded[i] = gradient[i] + (i === home ? 0 : gradient[count + i]);
    for (const [index] of left) folded[index] = gradient[count + index];
    return folded;
  };
  return {
    state: skimmedState(asItIs.state),
    overVariables: (gradient) => asItIs.overVariables(fold(gradient)),
    beyondReading: (gradient) =>
      left.reduce((sum, [index, sd]) => sum + (gradient[index] * sd) ** 2, asItIs.beyondReading(fold(gradient))),
  };
}
