import type { Machine } from "../machine/machine.ts";
import { machineWithReach, type Reach } from "../machine/reach.ts";
import type { Run } from "./timeline.ts";

/**
 * The machine that a run's stations are laid out on: in all but its reach as it is described now, with the reach that was
 * described when the run was begun. Readings so keep the places where they were taken, and a corrected height counts for
 * all of them.
 */
export function machineOfRun(machine: Machine, { reach }: Pick<Run, "reach">): Machine {
  if (reach === undefined) return machine;
  const known = laidOut.get(machine) ?? new Map<Reach, Machine>();
  laidOut.set(machine, known);
  const then = known.get(reach) ?? machineWithReach(machine, reach);
  known.set(reach, then);
  return then;
}

const laidOut = new WeakMap<Machine, Map<Reach, Machine>>();
