import type { DemandKindId } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import { type FoundMoves, findMoves } from "./find-moves.ts";
import type { ProgrammeSolver } from "./integer-programme.ts";
import type { DemandCure, PlanQuestion } from "./plan.ts";
import { plannedState } from "./planner-state.ts";

/** What a rewritten program can make good: where the tool goes, not how it stands. */
const inProgram: ReadonlySet<DemandKindId> = new Set([
  "size",
  "sides",
  "squareness",
  "diagonals",
  "circle",
  "hole-pattern",
  "depth-spread",
  "through-cut",
  "stroke-spread",
  "scale",
]);

/** What would bring a demand within its limit that the plan leaves out; null where the plan brings it in. */
export function cureFor(
  question: PlanQuestion,
  found: FoundMoves,
  after: DemandResult,
  excess: number,
  solve: ProgrammeSolver,
): DemandCure | null {
  if (excess === 0 || after.verdict === "within") return null;
  const { demand } = after;
  const skim = question.adjusters.find(({ kind }) => kind === "skim");
  if (demand.againstBed && !found.skim && skim && (question.willSkim === false || question.locks.has(skim.id))) {
    const skimmed = plannedState(question.state, { moves: found.moves, skim: true }).scene;
    const values = demand.samples(skimmed).map(({ value }) => Math.abs(value));
    if (Math.max(...values) <= demand.limit) return { kind: "skim" };
  }
  const locked = lockInTheWay(question, found, demand.id, solve);
  if (locked !== null) return locked;
  if (after.value <= demand.limit) return { kind: "measure better" };
  if (inProgram.has(demand.kind)) return { kind: "correct the program" };
  return { kind: "relax the demand", reachable: after.high };
}

/** The first lock without which the demand would come in. */
function lockInTheWay(
  question: PlanQuestion,
  found: FoundMoves,
  demandId: string,
  solve: ProgrammeSolver,
): DemandCure | null {
  if (question.locks.size === 0) return null;
  const index = question.demands.findIndex(({ id }) => id === demandId);
  const free = findMoves({ ...question, locks: new Set() }, solve);
  if (free.excess[index] > 0.5 * found.excess[index]) return null;
  const used = free.moves.find(({ lever }) => question.locks.has(lever.adjuster.id));
  if (!used) return null;
  const { id } = used.lever.adjuster;
  return id.startsWith("steps.")
    ? { kind: "steps per mm", axis: id.slice("steps.".length) as "x" | "y" | "z" }
    : { kind: "unlock", adjuster: id };
}
