import type { PlannedMove } from "../../core/planning/plan.ts";
import { inOrderOfTime } from "../../logbook/event-order.ts";
import { eventsOfMachine } from "./held.ts";
import type { PlannedMovePage } from "./protocol-moves.ts";

/**
 * Leaves that a planned move lays and takes out, each by its thickness, as the logbook notes them. What lies at a place
 * comes out whole: the leaves that moves have laid there, or one of what the description says.
 */
export function leavesOfPlannedMove(machine: string, { adjuster, leaves }: PlannedMove): PlannedMovePage["leaves"] {
  if (adjuster.packing === "none") return null;
  const laidMm = leaves.flatMap(({ layMm }) => layMm);
  const takesOut = leaves.reduce((sum, { takeOutMm }) => sum + takeOutMm, 0);
  const lying = leavesLaid(machine, adjuster.id);
  const isAll = Math.abs(lying.reduce((sum, leaf) => sum + leaf, 0) - takesOut) < 1e-6;
  return { laidMm, takenOutMm: takesOut < 0.005 ? [] : isAll ? lying : [Math.round(takesOut * 1e6) / 1e6] };
}

/** Leaves that moves have laid at an adjuster's places and not taken out again. */
function leavesLaid(machine: string, adjuster: string): readonly number[] {
  const ordered = inOrderOfTime(eventsOfMachine(machine)).map(({ event }) => event);
  const undone = new Set(ordered.flatMap((event) => (event.kind === "move-undone" ? [event.move] : [])));
  const lying: number[] = [];
  for (const event of ordered) {
    if (event.kind !== "move-made" || event.adjuster !== adjuster || undone.has(event.id) || !event.leaves) continue;
    for (const leaf of event.leaves.takenOutMm) {
      const at = lying.findIndex((other) => Math.abs(other - leaf) < 1e-6);
      if (at >= 0) lying.splice(at, 1);
    }
    lying.push(...event.leaves.laidMm);
  }
  return lying;
}
