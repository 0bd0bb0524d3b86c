import type { PlannedMove } from "../core/planning/plan.ts";
import type { Demand } from "../core/work/demand.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import { judgeDemands } from "../core/work/judge.ts";
import type { WorkState } from "../core/work/work-state.ts";
import type { WorkPlan } from "./plan-for.ts";

/** What a move brings one demand, with all that is known of it on either side of the move. */
export interface Brought {
  readonly demand: Demand;
  readonly before: DemandResult;
  readonly after: DemandResult;
}

/** As much of a plan as says what its moves bring. */
export type BringingPlan = Pick<WorkPlan, "moves" | "demands">;

/**
 * What one move of a plan brings. Where no other move changes a demand, it is what the plan as a whole makes of it, and
 * that has been judged already.
 */
export function broughtBy({ moves, demands }: BringingPlan, move: PlannedMove): readonly Brought[] {
  const place = moves.indexOf(move);
  return move.brings.map(({ demand }) => {
    const changes = ({ brings }: PlannedMove) => brings.some((other) => other.demand.id === demand.id);
    const planned = demands.find((one) => one.demand.id === demand.id);
    return {
      demand,
      before: (!moves.slice(0, place).some(changes) && planned?.before) || judged(demand, move.before),
      after: (!moves.slice(place + 1).some(changes) && planned?.after) || judged(demand, move.after),
    };
  });
}

/** Enough for an interval's ends to a few hundredths of its width. */
const DRAWS = 2000;

function judged(demand: Demand, state: WorkState): DemandResult {
  return judgeDemands(state, [demand], DRAWS).results[0];
}
