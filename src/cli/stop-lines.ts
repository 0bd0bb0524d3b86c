import type { Assessment } from "../app/assess.ts";
import type { Plan } from "../core/planning/plan.ts";

/** What the gauge reads when a move is right, one sentence a move; empty where nothing that the user has shows it. */
export function stopsOf(_assessment: Assessment, { moves }: Plan): readonly string[] {
  return moves.map(() => "");
}
