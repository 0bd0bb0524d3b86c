import { type Demand, type DemandKindId, reduceSamples } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import type { FoundMoves } from "./find-moves.ts";
import type { DemandCure, PlanQuestion } from "./plan.ts";
import { plannedState } from "./planned-state.ts";

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

/**
 * What would bring a demand within its limit that the plan leaves out; null where the plan brings it in.
 *
 * @param withoutLocks what would be found if nothing were locked
 */
export function cureFor(
  question: PlanQuestion,
  found: FoundMoves,
  after: DemandResult,
  excess: number,
  withoutLocks: () => FoundMoves,
): DemandCure | null {
  if (after.verdict === "within") return null;
  // In, as far as the guard may reach: what is left is not known.
  if (excess === 0) return { kind: "measure better" };
  const { demand } = after;
  const skim = question.adjusters.find(({ kind }) => kind === "skim");
  if (demand.againstBed && !found.skim && skim && (question.willSkim === false || question.locks.has(skim.id))) {
    const skimmed = plannedState(question.state, { moves: found.moves, skim: true }).scene;
    const values = demand.samples(skimmed).map(({ value }) => Math.abs(value));
    if (Math.max(...values) <= demand.limit) return { kind: "skim" };
  }
  const locked = lockInTheWay(question, found, demand, withoutLocks);
  if (locked !== null) return locked;
  if (after.value <= demand.limit) return { kind: "measure better" };
  if (inProgram.has(demand.kind)) return { kind: "correct the program" };
  return { kind: "relax the demand", reachable: after.high };
}

/** Of the locks without which the demand would come in, the one that does most for it. */
function lockInTheWay(
  question: PlanQuestion,
  found: FoundMoves,
  demand: Demand,
  withoutLocks: () => FoundMoves,
): DemandCure | null {
  if (question.locks.size === 0) return null;
  const index = question.demands.indexOf(demand);
  const free = withoutLocks();
  if (free.excess[index] > 0.5 * found.excess[index]) return null;
  const valueWith = (moves: FoundMoves["moves"]) => {
    const { scene } = plannedState(question.state, { moves, skim: free.skim });
    return reduceSamples(
      demand,
      demand.samples(scene).map(({ value }) => value),
    );
  };
  const locked = free.moves
    .filter(({ lever }) => question.locks.has(lever.adjuster.id))
    .map((move) => ({ id: move.lever.adjuster.id, without: valueWith(free.moves.filter((other) => other !== move)) }))
    .sort((one, other) => other.without - one.without);
  if (locked.length === 0 || locked[0].without <= valueWith(free.moves)) return null;
  const [{ id }] = locked;
  return id.startsWith("steps.")
    ? { kind: "steps per mm", axis: id.slice("steps.".length) as "x" | "y" | "z" }
    : { kind: "unlock", adjuster: id };
}
