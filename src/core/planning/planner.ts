import { homingYaw } from "../machine/machine.ts";
import type { Demand } from "../work/demand.ts";
import { reduceSamples } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import { type Judgement, judgeDemands } from "../work/judge.ts";
import type { WorkState } from "../work/work-state.ts";
import { cureFor } from "./cure.ts";
import { type FoundMove, type FoundMoves, findMoves, type Judge } from "./find-moves.ts";
import { withFullCorrections } from "./full-correction.ts";
import type { ProgrammeSolver } from "./integer-programme.ts";
import type { LeafChange, Plan, PlannedDemand, PlannedMove, PlanQuestion } from "./plan.ts";
import { plannedState, skimmedState, stateAfterMoves } from "./planned-state.ts";

/** From this chance on that all is well, the machine is best left alone. */
const WELL = 0.95;
/** For a chance that is only set beside the others. */
const FEW_DRAWS = 2000;
/** A demand that comes out over its guarded limit by less than this is in it. */
const NO_EXCESS = 1e-3;
/** A change of a demand by a smaller share of its limit is not worth a word. */
const WORTH_A_WORD = 0.01;

/** The fewest and cheapest moves for the work, in the order in which they are made, with what they are expected to bring. */
export function planMoves(question: PlanQuestion, solve: ProgrammeSolver): Plan {
  const { state, demands } = question;
  const judge = keptJudge(demands);
  const now = judge(state);
  if (now.together >= WELL && question.willSkim !== true) return standingStill(question, now, "leave it alone");
  const found = withFullCorrections(question, findMoves(question, solve, judge), judge);
  const { after } = found;
  const then = judge(after);
  const exact = judgeDemands(plannedState(knownExactly(state), found), demands, FEW_DRAWS).together;
  const moves = movesInOrder(question, found);
  let free: FoundMoves | null = null;
  const withoutLocks = () => {
    free ??= findMoves({ ...question, locks: new Set() }, solve);
    return free;
  };
  return {
    answer: answerFor(found, then.results),
    moves,
    minutes: minutesOf(question, moves),
    demands: demands.map((demand, k): PlannedDemand => {
      const excess = found.excess[k] > NO_EXCESS ? found.excess[k] : 0;
      const result = then.results[k];
      return {
        demand,
        before: now.results[k],
        after: result,
        excess,
        cure: cureFor(question, found, result, excess, withoutLocks),
      };
    }),
    chance: { now: now.together, after: then.together, knownExactly: exact },
    after,
    proven: found.proven,
    gap: found.gap,
  };
}

/** The same state is judged once. */
function keptJudge(demands: readonly Demand[]): Judge {
  const kept = new Map<WorkState, Judgement>();
  return (state) => {
    const known = kept.get(state) ?? judgeDemands(state, demands);
    kept.set(state, known);
    return known;
  };
}

/** Nothing is moved, whatever the work asks: what it comes out like as the machine stands. */
export function planOfNoMoves(question: PlanQuestion): Plan {
  return standingStill(question, judgeDemands(question.state, question.demands), "measure first");
}

function standingStill({ state }: PlanQuestion, { results, together }: Judgement, answer: Plan["answer"]): Plan {
  const demands = results.map((result) => ({
    demand: result.demand,
    before: result,
    after: result,
    excess: 0,
    cure: null,
  }));
  return {
    answer,
    moves: [],
    minutes: 0,
    demands,
    chance: { now: together, after: together, knownExactly: together },
    after: state,
    proven: true,
    gap: 0,
  };
}

function answerFor({ moves, skim }: FoundMoves, then: readonly DemandResult[]): Plan["answer"] {
  if (moves.length > 0 || skim) return "move";
  if (then.some(({ verdict }) => verdict === "out")) return "out of reach";
  return then.every(({ verdict }) => verdict === "within") ? "leave it alone" : "measure first";
}

/** The same state without what is not known of it; what the next homing leaves stays. */
export function knownExactly({ scene, covariance }: WorkState): WorkState {
  const { size } = scene;
  const home = scene.machine.parameterIndex.get(homingYaw) as number;
  const only = new Float64Array(size * size);
  only[home * size + home] = covariance[home * size + home];
  return { scene, covariance: only };
}

/** Upstream first, then as the catalogue has them; the skim, which cuts what all others have left, comes last. */
function movesInOrder(question: PlanQuestion, found: FoundMoves): readonly PlannedMove[] {
  const inOrder = [...found.moves].sort((a, b) => a.lever.adjuster.level - b.lever.adjuster.level);
  let state = question.state;
  const moves = inOrder.map((move): PlannedMove => {
    const after = stateAfterMoves(state, [move]);
    const planned: PlannedMove = {
      adjuster: move.lever.adjuster,
      amount: move.amount,
      leaves: leavesOf(move),
      brings: changesBetween(question.demands, state, after),
      before: state,
      after,
    };
    state = after;
    return planned;
  });
  const skim = question.adjusters.find(({ kind }) => kind === "skim");
  if (!found.skim || !skim) return moves;
  const after = skimmedState(state);
  const last: PlannedMove = {
    adjuster: skim,
    amount: 1,
    leaves: [],
    brings: changesBetween(question.demands, state, after),
    before: state,
    after,
  };
  return [...moves, last];
}

function leavesOf({ leaves }: FoundMove): readonly LeafChange[] {
  return leaves.map(({ place, layMm, takesOut }): LeafChange => {
    const takeOutMm = takesOut ? place.nowMm : 0;
    const laid = layMm.reduce((sum, leaf) => sum + leaf, 0);
    return { place: place.place, layMm, takeOutMm, restMm: place.nowMm - takeOutMm + laid };
  });
}

function changesBetween(demands: readonly Demand[], before: WorkState, after: WorkState): PlannedMove["brings"] {
  const valueIn = (demand: Demand, { scene }: WorkState) =>
    reduceSamples(
      demand,
      demand.samples({ ...scene, size: 0, skim: scene.skim && { ...scene.skim, column: 0 } }).map(({ value }) => value),
    );
  return demands
    .map((demand) => ({ demand, before: valueIn(demand, before), after: valueIn(demand, after) }))
    .filter((change) => Math.abs(change.after - change.before) > WORTH_A_WORD * change.demand.limit);
}

/** At the joints, and once for each group of checks that has to be read again. */
function minutesOf({ adjusters }: PlanQuestion, moves: readonly PlannedMove[]): number {
  const groups = new Map(
    moves.flatMap(({ adjuster: { readAgain } }) => (readAgain ? [[readAgain.group, readAgain.minutes] as const] : [])),
  );
  const again = [...groups.values()].reduce((sum, minutes) => sum + minutes, 0);
  const known = new Map(adjusters.map(({ id, minutes }) => [id, minutes]));
  return moves.reduce((sum, { adjuster }) => sum + (known.get(adjuster.id) ?? adjuster.minutes), again);
}
