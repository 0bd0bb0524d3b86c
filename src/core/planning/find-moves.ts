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
  /** Where the machine is expected to stand after them. */
  readonly after: WorkState;
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
const MOST_NODES = 200;
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

/** How likely a state keeps what is demanded. */
export type Judge = (state: WorkState) => Judgement;

/**
 * Finds the fewest and cheapest moves; see `planProgramme` for what is cheapest.
 *
 * @param judge asked about the machine as it is and as it would be, so that its answers can be kept
 */
export function findMoves(
  question: PlanQuestion,
  solve: ProgrammeSolver,
  judge: Judge = (state) => judgeDemands(state, question.demands, FEW_DRAWS),
): FoundMoves {
  const levers = leversFor(question);
  let search = cheapest(
    bedsFor(question).map((bed) => lookAt(question, levers, bed, solve)),
    solve,
  );
  for (;;) {
    if (search === null) return nothingFound(question);
    const found = foundFrom(question, levers, search);
    const idle = idleMoves(question, found);
    if (idle.size === 0) return isWorthwhile(question, found, judge) ? found : nothingFound(question);
    // What lies within what is not known is no reason to open a joint.
    const only = [...search.only].filter((l) => !idle.has(levers[l].adjuster.id));
    search = layLeaves(search, new Set(only), solve);
  }
}

/** The bed as it is, or skimmed after the moves, with the minutes that the skim takes. */
interface Bed {
  readonly skim: boolean;
  readonly minutes: number;
}

function bedsFor({ adjusters, willSkim, locks }: PlanQuestion): readonly Bed[] {
  const skim = adjusters.find(({ kind }) => kind === "skim");
  const asItIs = { skim: false, minutes: 0 };
  if (!skim?.available || willSkim === false || locks.has(skim.id)) return [asItIs];
  const skimmed = { skim: true, minutes: skim.minutes };
  return willSkim === true ? [skimmed] : [asItIs, skimmed];
}

/** A bed whose plan is still to be searched, and the least in minutes that any plan with it could cost. */
interface Look {
  readonly bed: Bed;
  /** Demands and levers, with packing of any thickness. */
  readonly smooth: ProgrammeParts;
  readonly least: number;
}

/** The same when it is known what packing of any thickness would touch. */
interface Bound extends Look {
  readonly isProven: boolean;
  /** Levers to lay leaves at; every lever where the programme is small enough to be searched in full. */
  readonly touched: ReadonlySet<number>;
  readonly inFull: boolean;
}

/** A plan with its leaves; `cost` in minutes, the skim's among them. */
interface Search extends Bound {
  readonly only: ReadonlySet<number>;
  readonly key: ProgrammeKey;
  readonly best: ProgrammeSolution;
  readonly cost: number;
}

/**
 * The machine is not quite linear: a first look, in which joints may be touched by halves, says where to linearise. A
 * second from there, by halves again, is quick and costs no more than any plan.
 */
function lookAt(question: PlanQuestion, levers: readonly Lever[], bed: Bed, solve: ProgrammeSolver): Look {
  const first = byHalves(partsAt(question, levers, new Map(), bed), solve);
  const smooth = partsAt(question, levers, first.amounts, bed);
  return { bed, smooth, least: byHalves(smooth, solve).cost + bed.minutes };
}

function byHalves(
  parts: ProgrammeParts,
  solve: ProgrammeSolver,
): { readonly cost: number; readonly amounts: ReadonlyMap<string, number> } {
  const { programme, key } = planProgramme(parts);
  const columns = programme.columns.map((column) => ({ ...column, whole: false }));
  const { values, objective } = solve({ ...programme, columns }, MOST_NODES);
  if (values === null) return { cost: Number.POSITIVE_INFINITY, amounts: new Map() };
  return {
    cost: objective,
    amounts: new Map(parts.levers.map(({ adjuster }, l) => [adjuster.id, key.amountOf(l, values)])),
  };
}

/** Best first: whichever bed could still be the cheapest is searched one step further, until a plan stands first. */
function cheapest(looks: readonly Look[], solve: ProgrammeSolver): Search | null {
  const open: (Look | Bound | Search)[] = [...looks];
  while (open.length > 0) {
    open.sort((a, b) => leastCost(a) - leastCost(b));
    const [first] = open.splice(0, 1);
    if ("cost" in first) return first;
    const further = "touched" in first ? searchFrom(first, solve) : boundOf(first, solve);
    if (further !== null) open.push(further);
  }
  return null;
}

function leastCost(step: Look | Search): number {
  return "cost" in step ? step.cost - SAME_COST : step.least;
}

/** Packing of any thickness is a bound, and says where leaves are worth while. Null where nothing is feasible. */
function boundOf(look: Look, solve: ProgrammeSolver): Bound | null {
  const { smooth, bed } = look;
  const whole = planProgramme({ ...smooth, packing: "whole" }).programme;
  if (whole.columns.filter((column) => column.whole).length <= FEW_WHOLES)
    return { ...look, isProven: true, touched: new Set(smooth.levers.keys()), inFull: true };
  const { programme, key } = planProgramme(smooth);
  const { values, objective, proven } = solve(programme, MOST_NODES);
  if (values === null) return null;
  const touched = touchedIn(smooth.levers, key, values);
  return { ...look, least: objective + bed.minutes, isProven: proven, touched, inFull: false };
}

/** Null where the search found nothing at all. */
function searchFrom(bound: Bound, solve: ProgrammeSolver): Search | null {
  const { smooth, touched, inFull, least } = bound;
  const first = layLeaves(bound, touched, solve);
  if (inFull || (first !== null && first.cost <= least + WORTH_A_SECOND_LOOK)) return first;
  // Joints without leaves make good what leaves are too coarse for.
  const withoutLeaves = smooth.levers.flatMap(({ places }, l) => (places.length === 0 ? [l] : []));
  const wider = layLeaves(bound, new Set([...touched, ...withoutLeaves]), solve);
  if (first === null || wider === null) return first ?? wider;
  return wider.cost < first.cost ? wider : first;
}

function layLeaves(bound: Bound, only: ReadonlySet<number>, solve: ProgrammeSolver): Search | null {
  const { programme, key } = planProgramme({ ...bound.smooth, packing: "whole", only });
  const best = solve(programme, bound.inFull ? 5 * MOST_NODES : MOST_NODES);
  return best.values === null ? null : { ...bound, only, key, best, cost: best.objective + bound.bed.minutes };
}

function touchedIn(levers: readonly Lever[], key: ProgrammeKey, values: Float64Array): ReadonlySet<number> {
  return new Set(levers.flatMap((_, l) => (key.isTouched(l, values) ? [l] : [])));
}

/**
 * Linear demands at the machine as some moves leave it, with the bed as it is or as skimmed.
 *
 * @param reference amounts of those moves, by adjuster
 */
function partsAt(
  question: PlanQuestion,
  levers: readonly Lever[],
  reference: ReadonlyMap<string, number>,
  { skim }: Bed,
): ProgrammeParts {
  const { state, demands } = question;
  const amounts = Float64Array.from(levers, ({ adjuster }) => reference.get(adjuster.id) ?? 0);
  const moved = movedState(state, levers, amounts);
  const plain = (gradient: Float64Array): FoldedGradient => ({ gradient, extraVariance: 0 });
  const asItIs = (demand: Demand) => linearDemand(demand, moved, state.covariance, levers, plain);
  const afterSkim = skim ? skimmedDemand(state, levers, moved) : asItIs;
  return {
    levers,
    reference: amounts,
    demands: demands.map((demand) => (demand.againstBed ? afterSkim(demand) : asItIs(demand))),
    skimDepth: skim ? asItIs(skimDepth) : null,
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
function skimmedDemand(state: WorkState, levers: readonly Lever[], moved: WorkState): (demand: Demand) => LinearDemand {
  const { machine, size } = state.scene;
  const count = machine.parameters.length;
  const skimmed = skimmedState(moved);
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
  return (demand) => linearDemand(demand, skimmed, state.covariance, levers, fold);
}

function stockByThickness(stockMm: readonly number[]): ReadonlyMap<number, number> {
  const stock = new Map<number, number>();
  for (const leaf of [...stockMm].sort((a, b) => b - a)) stock.set(leaf, (stock.get(leaf) ?? 0) + 1);
  return stock;
}

function foundFrom(
  { state, demands }: PlanQuestion,
  levers: readonly Lever[],
  { key, best, cost, least, bed, isProven, inFull }: Search,
): FoundMoves {
  const values = best.values as Float64Array;
  const moves = levers.flatMap((lever, l) => {
    const amount = lever.adjuster.kind === "assign" ? Math.round(key.amountOf(l, values)) : key.amountOf(l, values);
    if (!key.isTouched(l, values) || Math.abs(amount) < LEAST_AMOUNT) return [];
    const leaves = key.leavesOf(l, values).filter(({ layMm, takesOut }) => layMm.length > 0 || takesOut);
    return [{ lever, amount, leaves }];
  });
  return {
    moves,
    skim: bed.skim,
    after: plannedState(state, { moves, skim: bed.skim }),
    excess: demands.map((_, k) => Math.max(0, key.excessOf(k, values))),
    proven: inFull ? best.proven : isProven && cost <= least + SAME_COST,
    gap: inFull ? best.gap : Math.max(0, (cost - least) / Math.max(Math.abs(cost), 1e-9)),
  };
}

function nothingFound({ demands, state }: PlanQuestion): FoundMoves {
  const excess = demands.map((demand) => {
    const values = demand.samples(state.scene).map(({ value }) => value);
    return Math.max(0, reduceSamples(demand, values) / demand.limit - 1);
  });
  return { moves: [], skim: false, after: state, excess, proven: false, gap: Number.POSITIVE_INFINITY };
}

/** What is left to chance by many moves can outweigh what they bring: then the machine is better left as it is. */
function isWorthwhile({ state, willSkim }: PlanQuestion, found: FoundMoves, judge: Judge): boolean {
  if (willSkim === true || (found.moves.length === 0 && !found.skim)) return true;
  const now = judge(state);
  const then = judge(found.after);
  if (then.together >= now.together + LEAST_GAIN) return true;
  // Where nothing brings all of them in, one demand more that is kept is a gain, and so is each that comes nearer.
  const misses = ({ results }: Judgement) => results.reduce((sum, { probability }) => sum + 1 - probability, 0);
  const over = ({ results }: Judgement) =>
    results.reduce((sum, { demand, median }) => sum + Math.max(0, median / demand.limit - 1), 0);
  return misses(then) <= misses(now) - LEAST_GAIN || over(then) <= over(now) - LEAST_GAIN;
}

/** Moves that cure nothing that is known to be out: to measure is then the better move. */
function idleMoves({ state, demands }: PlanQuestion, { moves, skim }: FoundMoves): ReadonlySet<string> {
  const idle = new Set<string>();
  if (moves.length === 0) return idle;
  const before = stateAfterMoves(state, moves);
  const after = skim ? skimmedState(before) : before;
  const looks = demands.map((demand) => ({
    demand,
    gradients: gradientsOf(demand, after).map((gradient) => gradientNow(state, gradient, skim)),
  }));
  for (const { lever, amount } of moves) {
    const worth = looks.some(({ demand, gradients }) => {
      const effects = gradients.map((gradient) => amount * dot(lever.change, gradient));
      if (Math.max(...effects.map(Math.abs)) <= LEAST_SHARE * demand.limit) return false;
      return isBeyondDoubt(state, gradients, effects);
    });
    if (!worth) idle.add(lever.adjuster.id);
  }
  return idle;
}

/**
 * Whether the samples of a demand are known well enough along the pattern by which a move changes them: an end that hangs
 * low is seen in all of them together, though each by itself may be hidden by something else.
 */
function isBeyondDoubt(
  { scene, covariance }: WorkState,
  gradients: readonly Float64Array[],
  effects: readonly number[],
) {
  const length = Math.hypot(...effects);
  const along = new Float64Array(scene.size);
  gradients.forEach((gradient, s) => {
    for (let i = 0; i < along.length; i++) along[i] += (effects[s] / length) * gradient[i];
  });
  return length > LEAST_WORTH * Math.sqrt(quadraticForm(covariance, along));
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

/** In standard deviations of the samples along the move's own pattern. */
const LEAST_WORTH = COVERAGE / 2;
/** Of a limit: what changes no demand by more is not worth opening a joint. */
const LEAST_SHARE = 0.01;
