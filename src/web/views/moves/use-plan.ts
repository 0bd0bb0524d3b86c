import type { Answer } from "../../worker/protocol.ts";
import type { MovesBoard, PlanPage, WhatIf } from "../../worker/protocol-moves.ts";
import { useAnswer } from "../../worker/use-answer.ts";

export interface PlanInSight {
  readonly board: Answer<MovesBoard> | null;
  /** The latest plan that has been worked out; null before the first. */
  readonly plan: Answer<PlanPage> | null;
  /** A newer one is on its way. */
  readonly isOld: boolean;
}

/** The plan, and what stands beside it. The plan takes a moment; what stands beside it is there at once. */
export function usePlan(machine: string, what: WhatIf): PlanInSight {
  const board = useAnswer("movesBoard", { machine }).value;
  const answer = useAnswer("plan", { machine, what }).value;
  // What was asked before the machine's events had come has no answer, and the next one takes a moment.
  const plan = answer?.ok === false && answer.told.length === 0 ? null : answer;
  const isOld = plan?.ok === true && board?.ok === true && plan.value.version !== board.value.version;
  return { board, plan, isOld };
}
