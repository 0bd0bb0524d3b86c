import { heightsOverBed } from "../findings/paths.ts";
import { homingYaw } from "../machine/machine.ts";
import { skimLeaves } from "../machine/skimmed-bed.ts";
import { dot, quadraticForm } from "../numerics/symmetric.ts";
import { type Demand, reduceSamples } from "../work/demand.ts";
import { type Judgement, judgeDemands } from "../work/judge.ts";
import type { WorkState } from "../work/work-state.ts";
import type { ProgrammeSolution, ProgrammeSolver } from "./integer-programme.ts";
import { type Lever, leversFor } from "./lever.ts";
import { COVERAGE, type FoldedGradient, type LinearDemand, linearDemand } from "./linear-demand.ts";
import type { PlanQuestion } from "./plan.ts";
import {
  type LaidLeaves,
  type ProgrammeKey,
  type ProgrammeParts,
  planProgramme,
  skimDepthLimitMm,
} from "./plan-programme.ts";
import { plannedState, skimmedState, stateAfterMoves } from "./planned-state.ts";

/** Levers and amounts that were chosen, in the catalogue's order. */
export interface FoundMoves {
  readonly moves: readonly FoundMove[];
  readonly skim: boolean;
  /** Excess of each demand that the programme came to, as a share of its limit. */
  readonly excess: readonly number[];
  readonly proven: boolean;
  readonly gap: number;
}

export interface FoundMove {
  readonly lever: Lever;
  readonly amount: number;
  readonly leaves: readonly LaidLeaves[];
}

/** So many nodes of the search, and no more; the best that was found by then counts. */
const MOST_NODES = 100;
/** Costs of two programmes that differ by less than this (minutes) are the same plan. */
const SAME_COST = 0.5;
/** A hundredth of a limit. */
const WORTH_A_SECOND_LOOK = 100;
/** With so few whole numbers the search is quick enough to be made in full. */
const FEW_WHOLES = 40;
/** Enough draws to tell two chances apart. */
const FEW_DRAWS = 2000;
/** What a plan must add to the chance of success, or take off what is over. */
const LEAST_GAIN = 0.02;
/** An amount below this is no move. */
const LEAST_AMOUNT = 1e-6;

/** Finds the fewest and cheapest moves; see `planProgramme` for what is cheapest. */
export function findMoves(question: PlanQuestion, solve: ProgrammeSolver): FoundMoves {
  const levers = leversFor(question);
  const smooth = partsAt(question, levers, lookAhead(question, levers, solve));
  let search = searchFrom(smooth, solve);
  for (;;) {
    if (search === null) return nothingFound(question);
    const found = foundFrom(question, levers, search);
    const idle = idleMoves(question, found);
    if (idle.size === 0) return isWorthwhile(question, found) ? found : nothingFound(question);
    // What lies within what is not known is no reason to open a joint.
    const only = [...search.only].filter((l) => !idle.has(levers[l].adjuster.id));
    search = layLeaves(smooth, new Set(only), search.bound, solve);
  }
}

/**
 * The machine is not quite linear: a first look, in which joints may be touched by halves, only says where to linearise.
 */
function lookAhead(question: PlanQuestion, levers: readonly Lever[], solve: ProgrammeSolver): Reference {
  const asItStands: Reference = { amounts: new Map() };
  const { programme, key } = planProgramme(partsAt(question, levers, asItStands));
  const columns = programme.columns.map((column) => ({ ...column, whole: false }));
  const { values } = solve({ ...programme, columns }, MOST_NODES);
  if (values === null) return asItStands;
  return { amounts: new Map(levers.map(({ adjuster }, l) => [adjuster.id, key.amountOf(l, values)])) };
}

/** Leaves that were laid at some of the levers, and the least that any plan could cost. */
interface Search {
  readonly only: ReadonlySet<number>;
  readonly bound: ProgrammeSolution;
  readonly key: ProgrammeKey;
  readonly best: ProgrammeSolution;
}

/** Null where the search found nothing at all. */
function searchFrom(smooth: ProgrammeParts, solve: ProgrammeSolver): Search | null {
  const every = new Set(smooth.levers.keys());
  const all = planProgramme({ ...smooth, packing: "whole" });
  if (all.programme.columns.filter(({ whole }) => whole).length <= FEW_WHOLES) {
    const best = solve(all.programme, 10 * MOST_NODES);
    return best.values === null ? null : { only: every, bound: best, key: all.key, best };
  }
  // Packing of any thickness is a bound, and says where leaves are worth while.
  const { programme, key } = planProgramme(smooth);
  const bound = solve(programme, MOST_NODES);
  if (bound.values === null) return null;
  const touched = touchedIn(smooth.levers, key, bound.values);
  const first = layLeaves(smooth, touched, bound, solve);
  if (first !== null && first.best.objective <= bound.objective + WORTH_A_SECOND_LOOK) return first;
  // Joints without leaves make good what leaves are too coarse for.
  const withoutLeaves = smooth.levers.flatMap(({ places }, l) => (places.length === 0 ? [l] : []));
  const wider = layLeaves(smooth, new Set([...touched, ...withoutLeaves]), bound, solve);
  if (first === null || wider === null) return first ?? wider;
  return wider.best.objective < first.best.objective ? wider : first;
}

function layLeaves(
  smooth: ProgrammeParts,
  only: ReadonlySet<number>,
  bound: ProgrammeSolution,
  solve: ProgrammeSolver,
): Search | null {
  const { programme, key } = planProgramme({ ...smooth, packing: "whole", only });
  const best = solve(programme, MOST_NODES);
  return best.values === null ? null : { only, bound, key, best };
}

function touchedIn(levers: readonly Lever[], key: ProgrammeKey, values: Float64Array): ReadonlySet<number> {
  return new Set(levers.flatMap((_, l) => (key.isTouched(l, values) ? [l] : [])));
}

/** Amounts at which the machine is linearised, by adjuster. */
interface Reference {
  readonly amounts: ReadonlyMap<string, number>;
}

/** Linear demands at the machine as the reference moves leave it, as the bed is and as skimmed. */
function partsAt(question: PlanQuestion, levers: readonly Lever[], reference: Reference): ProgrammeParts {
  const { state, demands, willSkim } = question;
  const amounts = Float64Array.from(levers, ({ adjuster }) => reference.amounts.get(adjuster.id) ?? 0);
  const moved = movedState(state, levers, amounts);
  const plain = (gradient: Float64Array): FoldedGradient => ({ gradient, extraVariance: 0 });
  const linear = (demand: Demand) => linearDemand(demand, moved, state.covariance, levers, plain);
  const skim = question.adjusters.find(({ kind }) => kind === "skim");
  const maySkim = skim?.available && willSkim !== false && !question.locks.has(skim.id);
  return {
    levers,
    reference: amounts,
    asItIs: demands.map(linear),
    skimmed: maySkim ? demandsSkimmed(question, levers, moved) : null,
    skimDepth: maySkim ? linear(skimDepth) : null,
    skimMinutes: skim?.minutes ?? 0,
    mustSkim: willSkim === true,
    stock: stockByThickness(question.stockMm),
    packing: "smooth",
  };
}

/** What comes off where the bed stands highest against the motion, beyond where it stands lowest. */
const skimDepth: Demand = {
  id: "skim depth",
  kind: "depth-spread",
  title: "Depth of the skim",
  unit: "mm",
  limit: skimDepthLimitMm,
  form: "spread",
  againstBed: true,
  samples: heightsOverBed,
  meaning: (value) => `The skim takes off ${value.toFixed(1)} where it is deepest.`,
};

/** The values alone: what is not known is counted apart. */
function movedState(state: WorkState, levers: readonly Lever[], amounts: Float64Array): WorkState {
  const values = Float64Array.from(state.scene.state);
  levers.forEach(({ change }, l) => {
    for (let i = 0; i < change.length; i++) values[i] += change[i] * amounts[l];
  });
  return { scene: { ...state.scene, state: values }, covariance: state.covariance };
}

/** After a skim a demand against the bed depends on the motion alone, and on what the cutter leaves to chance. */
function demandsSkimmed(
  { demands, state }: PlanQuestion,
  levers: readonly Lever[],
  moved: WorkState,
): readonly LinearDemand[] {
  const { machine, size } = state.scene;
  const count = machine.parameters.length;
  const skimmed = skimmedState({ scene: moved.scene, covariance: moved.covariance });
  const left = [...skimLeaves(machine)].flatMap(([id, sd]) => {
    const index = machine.parameterIndex.get(id);
    return index === undefined ? [] : [[index, sd] as const];
  });
  const home = machine.parameterIndex.get(homingYaw) as number;
  const fold = (gradient: Float64Array): FoldedGradient => {
    const folded = new Float64Array(size);
    for (let i = 0; i < count; i++) folded[i] = gradient[i] + (i === home ? 0 : gradient[count + i]);
    let extraVariance = 0;
    for (const [index, sd] of left) {
      extraVariance += (gradient[index] * sd) ** 2;
      folded[index] = 0;
    }
    return { gradient: folded, extraVariance };
  };
  return demands.map((demand) =>
    demand.againstBed ? linearDemand(demand, skimmed, state.covariance, levers, fold) : { demand, areas: [] },
  );
}

function stockByThickness(stockMm: readonly number[]): ReadonlyMap<number, number> {
  const stock = new Map<number, number>();
  for (const leaf of [...stockMm].sort((a, b) => b - a)) stock.set(leaf, (stock.get(leaf) ?? 0) + 1);
  return stock;
}

function foundFrom({ demands }: PlanQuestion, levers: readonly Lever[], { key, best, bound }: Search): FoundMoves {
  const values = best.values as Float64Array;
  const moves = levers.flatMap((lever, l) => {
    const amount = lever.adjuster.kind === "assign" ? Math.round(key.amountOf(l, values)) : key.amountOf(l, values);
    if (!key.isTouched(l, values) || Math.abs(amount) < LEAST_AMOUNT) return [];
    const leaves = key.leavesOf(l, values).filter(({ layMm, takesOut }) => layMm.length > 0 || takesOut);
    return [{ lever, amount, leaves }];
  });
  return {
    moves,
    skim: key.skim !== null && values[key.skim] > 0.5,
    excess: demands.map((_, k) => Math.max(0, key.excessOf(k, values))),
    proven: bound.proven && best.objective <= bound.objective + SAME_COST,
    gap: Math.max(0, (best.objective - bound.objective) / Math.max(Math.abs(best.objective), 1e-9)),
  };
}

function nothingFound({ demands, state }: PlanQuestion): FoundMoves {
  const excess = demands.map((demand) => {
    const values = demand.samples(state.scene).map(({ value }) => value);
    return Math.max(0, reduceSamples(demand, values) / demand.limit - 1);
  });
  return { moves: [], skim: false, excess, proven: false, gap: Number.POSITIVE_INFINITY };
}

/** What is left to chance by many moves can outweigh what they bring: then the machine is better left as it is. */
function isWorthwhile({ state, demands, willSkim }: PlanQuestion, found: FoundMoves): boolean {
  if (willSkim === true || (found.moves.length === 0 && !found.skim)) return true;
  const now = judgeDemands(state, demands, FEW_DRAWS);
  const then = judgeDemands(plannedState(state, found), demands, FEW_DRAWS);
  if (then.together >= now.together + LEAST_GAIN) return true;
  // Where nothing brings all of them in, one demand more that is kept is a gain, and so is each that comes nearer.
  const misses = ({ results }: Judgement) => results.reduce((sum, { probability }) => sum + 1 - probability, 0);
  const over = ({ results }: Judgement) =>
    results.reduce((sum, { demand, median }) => sum + Math.max(0, median / demand.limit - 1), 0);
  return misses(then) <= misses(now) - LEAST_GAIN || over(then) <= over(now) - LEAST_GAIN;
}

/** Moves that change no demand by more than is not known of it: to measure is then the better move. */
function idleMoves({ state, demands }: PlanQuestion, { moves, skim }: FoundMoves): ReadonlySet<string> {
  const idle = new Set<string>();
  if (moves.length === 0) return idle;
  const before = stateAfterMoves(state, moves);
  const after = skim ? skimmedState(before) : before;
  const { size } = state.scene;
  const looks = demands.map((demand) => ({
    demand,
    gradients: gradientsOf(demand, after).map((gradient) => gradientNow(state, gradient, skim)),
  }));
  for (const { lever, amount } of moves) {
    const worth = looks.some(({ demand, gradients }) =>
      gradients.some((gradient) => {
        const effect = Math.abs(amount * dot(lever.change, gradient));
        if (effect <= LEAST_SHARE * demand.limit) return false;
        return effect > LEAST_WORTH * Math.sqrt(quadraticForm(state.covariance, gradient.subarray(0, size)));
      }),
    );
    if (!worth) idle.add(lever.adjuster.id);
  }
  return idle;
}

/** Over the columns of now: a skim cuts what the machine then is, so that its columns count with the machine's own. */
function gradientNow({ scene }: WorkState, gradient: Float64Array, skim: boolean): Float64Array {
  if (!skim) return gradient;
  const count = scene.machine.parameters.length;
  const now = new Float64Array(scene.size);
  for (let i = 0; i < count; i++) now[i] = gradient[i] + gradient[count + i];
  for (const id of skimLeaves(scene.machine).keys()) {
    const index = scene.machine.parameterIndex.get(id);
    if (index !== undefined) now[index] = 0;
  }
  return now;
}

/** Of a spread each sample counts from the mean of all: what lifts or hides all of them alike is no part of it. */
function gradientsOf(demand: Demand, { scene }: WorkState): readonly Float64Array[] {
  const gradients = demand.samples(scene).map(({ gradient }) => gradient);
  if (demand.form !== "spread") return gradients;
  return (demand.groups ?? [[0, gradients.length] as const]).flatMap(([from, to]) => {
    const own = gradients.slice(from, to);
    const mean = new Float64Array(own[0]?.length ?? 0);
    for (const gradient of own) for (let i = 0; i < mean.length; i++) mean[i] += gradient[i] / own.length;
    return own.map((gradient) => gradient.map((slope, i) => slope - mean[i]));
  });
}

/** In standard deviations of what the move is meant to change. */
const LEAST_WORTH = COVERAGE / 2;
/** Of a limit: what changes no demand by more is not worth opening a joint. */
const LEAST_SHARE = 0.01;
