import firstMachine from "../../catalog/usual-limits/first-machine.json" with { type: "json" };
import { invariant } from "../core/base/invariant.ts";
import type { Axis } from "../core/machine/description.ts";
import type { Machine } from "../core/machine/machine.ts";
import type { DemandKindId } from "../core/work/demand.ts";
import { driveOfPlan } from "../core/work/kind-of-work.ts";
import { usualKindOfWork } from "./kinds-of-work.ts";

/** Findings that say what a demand of the usual kind of work says: their limit is stated there, and only there. */
const demandOfFinding: Readonly<Record<string, readonly [kind: DemandKindId, axis?: Axis]>> = {
  "depth-spread": ["depth-spread"],
  "tram.side": ["tram"],
  "tram.fore": ["tram"],
  "lost-motion.x": ["play", "x"],
  "lost-motion.y": ["play", "y"],
  "scale.x": ["scale", "x"],
  "scale.y": ["scale", "y"],
  runout: ["runout"],
};

/** What is usual for a finding on a machine with belts, or with screws on both X and Y, by finding, in its unit. */
export function usualLimitsOf(machine: Machine): ReadonlyMap<string, number> {
  const drive = driveOfPlan(machine);
  const byDemand = Object.entries(demandOfFinding).map(([finding, [kind, axis]]): [string, number] => {
    const demand = usualKindOfWork.demands.find(
      (candidate) => candidate.kind === kind && (axis === undefined || candidate.axes?.includes(axis)),
    );
    invariant(demand !== undefined, `the usual kind of work demands ${kind}`);
    return [finding, demand.limit[drive]];
  });
  return new Map([...Object.entries(firstMachine[drive]), ...byDemand]);
}
