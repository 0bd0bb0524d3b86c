import { isStepsPerMm } from "../machine/adjusters/sentence.ts";
import type { DemandResult } from "../work/demand-result.ts";
import type { FoundMove, FoundMoves, Judge } from "./find-moves.ts";
import type { PlanQuestion } from "./plan.ts";
import { plannedState } from "./planned-state.ts";

/** A chance that falls by no more than this is not disturbed: draws scatter by as much. */
const UNDISTURBED = 0.005;
/** The same of what is out of reach anyway, as a share of its limit. */
const NO_FURTHER = 0.01;

/**
 * The same moves with every number that is changed in the controller brought to what cures the estimate, and not only to
 * where the demands are just kept: to type the whole correction costs nothing more, and leaves no known error behind. A
 * number whose whole correction would disturb a demand, as where a scale makes up for something else, stays as it was
 * found. Numbers that are not changed anyway are left alone.
 */
export function withFullCorrections(question: PlanQuestion, found: FoundMoves, judge: Judge): FoundMoves {
  const whole = found.moves.map((move) => wholeCorrection(question, move));
  const changed = whole.flatMap((move, m) => (move === found.moves[m] ? [] : [m]));
  if (changed.length === 0) return found;
  const together = withMoves(question, found, whole);
  if (isUndisturbed(judge(found.after).results, judge(together.after).results)) return together;
  if (changed.length === 1) return found;
  return changed.reduce((so, m) => {
    const moves = so.moves.map((move, k) => (k === m ? whole[m] : move));
    const tried = withMoves(question, so, moves);
    return isUndisturbed(judge(so.after).results, judge(tried.after).results) ? tried : so;
  }, found);
}

/** To where the number's modes are nothing, as far as it reaches; the move itself where it is there already. */
function wholeCorrection({ state: { scene } }: PlanQuestion, move: FoundMove): FoundMove {
  const { lever } = move;
  if (!isStepsPerMm(lever.adjuster)) return move;
  const mode = lever.change.findIndex((slope) => slope !== 0);
  const amount = Math.min(lever.to, Math.max(lever.from, -scene.state[mode] / lever.change[mode]));
  return Math.abs(amount - move.amount) < 1e-9 ? move : { ...move, amount };
}

function withMoves({ state }: PlanQuestion, found: FoundMoves, moves: readonly FoundMove[]): FoundMoves {
  return { ...found, moves, after: plannedState(state, { moves, skim: found.skim }) };
}

function isUndisturbed(before: readonly DemandResult[], after: readonly DemandResult[]): boolean {
  return after.every(({ probability, value, demand: { limit } }, k) => {
    const kept = probability >= before[k].probability - UNDISTURBED;
    return kept && (value <= limit || value <= before[k].value + NO_FURTHER * limit);
  });
}
