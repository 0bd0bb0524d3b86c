import type { WorkState } from "../work/work-state.ts";
import type { FoundMoves } from "./find-moves.ts";
import { skimmedState, stateAfterMoves } from "./planned-state.ts";

/** Where the machine is expected to stand after all that was found; the skim cuts what the others have left. */
export function plannedState(state: WorkState, { moves, skim }: Pick<FoundMoves, "moves" | "skim">): WorkState {
  const moved = stateAfterMoves(state, moves);
  return skim ? skimmedState(moved) : moved;
}
