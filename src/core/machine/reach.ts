import type { MachineDescription, MachineDetails } from "./description.ts";
import { dimensionsFromDescription } from "./dimensions.ts";
import { type Machine, machineFromDescription } from "./machine.ts";

/** What a check lays its stations out by: the travel and the edges of the bed. */
export interface Reach {
  readonly travelMm: MachineDescription["travelMm"];
  readonly bedMm: MachineDetails["bedMm"];
}

export function reachOf(description: MachineDescription): Reach {
  return { travelMm: description.travelMm, bedMm: dimensionsFromDescription(description).details.bedMm };
}

/** A machine as it is, but for its reach. What was never stated follows from the reach that it is described with. */
export function machineWithReach(machine: Machine, { travelMm, bedMm }: Reach): Machine {
  return machineFromDescription({
    ...machine.description,
    travelMm,
    details: { ...machine.dimensions.details, bedMm },
  });
}
