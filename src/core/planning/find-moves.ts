import { heightsOverBed } from "../findings/paths.ts";
import { homingYaw } from "../machine/machine.ts";
import { skimLeaves } from "../machine/skimmed-bed.ts";
import { quadraticForm } from "../numerics/symmetric.ts";
import { type Demand, reduceSamples } from "../work/demand.ts";
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
import { skimmedState, stateAfterMoves } from "./planned-state.ts";

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
const MOST_NODES = 400;
/** Costs of two programmes that differ by less than this (minutes) are the same plan. */
const SAME_COST = 0.5;
/** An amount below this is no move. */
const LEAST_AMOUNT = 1e-6;

/** Finds the fewest and cheapest moves; see `planProgramme` for what is cheapest. */
export function findMoves(question: PlanQuestion, solve: ProgrammeSolver): FoundMoves {
  let levers = leversFor(question);
  for (;;) {
    const found = findWith(question, levers, solve);
    const idle = idleMoves(question, found);
    if (idle.size === 0) return found;
    // What lies within what is not known is no reason to open a joint.
    levers = levers.filter(({ adjuster }) => !idle.has(adjuster.id));
  }
}

function findWith(question: PlanQuestion, levers: readonly Lever[], solve: ProgrammeSolver): FoundMoves {
  let reference: Reference = { amounts: new Float64Array(levers.length), skim: question.willSkim === true };
  // The second look is from where the first would lead: the machine is not quite linear.
  for (let look = 0; look < 2; look++) {
    const { programme, key } = planProgramme(partsAt(question, levers, reference, "smooth"));
    const solution = solve(programme, MOST_NODES);
    if (solution.values === null) return nothingFound(question, levers);
    reference = referenceFrom(levers, key, solution.values);
  }
  const parts = partsAt(question, levers, reference, "smooth");
  const smooth = planProgramme(parts);
  const bound = solve(smooth.programme, MOST_NODES);
  if (bound.values === null) return nothingFound(question, levers);
  const whole = { ...parts, packing: "whole" } as const;
  // Leaves for the joints that smooth packing would open: mostly as good as the bound, and then the best there is.
  const few = planProgramme({ ...whole, only: touchedIn(levers, smooth.key, bound.values) });
  const first = solve(few.programme, MOST_NODES);
  if (first.values !== null && first.objective <= bound.objective + SAME_COST)
    return foundFrom(levers, few.key, { ...first, proven: bound.proven && first.proven });
  const all = planProgramme(whole);
  const best = solve(all.programme, MOST_NODES);
  if (best.values === null || (first.values !== null && first.objective <= best.objective)) {
    if (first.values === null) return nothingFound(question, levers);
    return foundFrom(levers, few.key, { ...first, proven: false, gap: gapBetween(bound.objective, first.objective) });
  }
  return foundFrom(levers, all.key, best);
}

interface Reference {
  readonly amounts: Float64Array;
  readonly skim: boolean;
}

function referenceFrom(levers: readonly Lever[], key: ProgrammeKey, values: Float64Array): Reference {
  const amounts = Float64Array.from(levers, (_, l) => key.amountOf(l, values));
  return { amounts, skim: key.skim !== null && values[key.skim] > 0.5 };
}

/** Linear demands at the machine as the reference moves leave it, as the bed is and as skimmed. */
function partsAt(
  question: PlanQuestion,
  levers: readonly Lever[],
  { amounts }: Reference,
  packing: ProgrammeParts["packing"],
): ProgrammeParts {
  const { state, demands, willSkim } = question;
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
    packing,
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

function touchedIn(levers: readonly Lever[], key: ProgrammeKey, values: Float64Array): ReadonlySet<number> {
  return new Set(levers.flatMap((_, l) => (values[key.touched[l]] > 0.5 ? [l] : [])));
}

function foundFrom(levers: readonly Lever[], key: ProgrammeKey, solution: ProgrammeSolution): FoundMoves {
  const values = solution.values as Float64Array;
  const moves = levers.flatMap((lever, l) => {
    const amount = lever.adjuster.kind === "assign" ? Math.round(key.amountOf(l, values)) : key.amountOf(l, values);
    if (values[key.touched[l]] < 0.5 || Math.abs(amount) < LEAST_AMOUNT) return [];
    return [
      { lever, amount, leaves: key.leavesOf(l, values).filter(({ layMm, takesOut }) => layMm.length > 0 || takesOut) },
    ];
  });
  return {
    moves,
    skim: key.skim !== null && values[key.skim] > 0.5,
    excess: key.excess.map((column) => Math.max(0, values[column])),
    proven: solution.proven,
    gap: solution.proven ? 0 : solution.gap,
  };
}

function nothingFound({ demands, state }: PlanQuestion, _levers: readonly Lever[]): FoundMoves {
  const excess = demands.map((demand) => {
    const values = demand.samples(state.scene).map(({ value }) => value);
    return Math.max(0, reduceSamples(demand, values) / demand.limit - 1);
  });
  return { moves: [], skim: false, excess, proven: false, gap: Number.POSITIVE_INFINITY };
}

function gapBetween(bound: number, found: number): number {
  return (found - bound) / Math.max(Math.abs(found), 1e-9);
}

/** Moves that change no demand by more than is not known of it: to measure is then the better move. */
function idleMoves({ state, demands }: PlanQuestion, { moves, skim }: FoundMoves): ReadonlySet<string> {
  const idle = new Set<string>();
  if (moves.length === 0) return idle;
  const before = stateAfterMoves(state, moves);
  const after = skim ? skimmedState(before) : before;
  const looks = demands.map((demand) => ({ demand, gradients: gradientsOf(demand, after) }));
  for (const { lever, amount } of moves) {
    const worth = looks.some(({ demand, gradients }) =>
      gradients.some((gradient) => {
        let effect = 0;
        for (let i = 0; i < lever.change.length; i++) {
          const share = gradient[i] + (skim ? gradient[lever.change.length + i] : 0);
          effect += share * lever.change[i] * amount;
        }
        const sd = Math.sqrt(quadraticForm(state.covariance, gradient.subarray(0, state.scene.size)));
        return Math.abs(effect) > LEAST_WORTH * sd && Math.abs(effect) > 0.01 * demand.limit;
      }),
    );
    if (!worth) idle.add(lever.adjuster.id);
  }
  return idle;
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
