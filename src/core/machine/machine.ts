import type { MachineDescription } from "./description.ts";
import { type Dimensions, dimensionsFromDescription } from "./dimensions.ts";
import type { Layout } from "./joint.ts";
import { fixedBridge, fixedBridgeModes } from "./layouts/fixed-bridge.ts";
import { movingGantry, movingGantryModes } from "./layouts/moving-gantry.ts";
import { commonModes, type Mode } from "./modes.ts";

/** Yaw that homing leaves on a machine with two motors along Y: drawn anew at every homing. */
export const homingYaw = "gantry.rack.home";

/**
 * One machine, ready to be asked. `parameters` are the modes in a fixed order and, last, the yaw of the present homing;
 * every state is an array over them, in the modes' units (mm, mm/m).
 */
export interface Machine {
  readonly description: MachineDescription;
  readonly dimensions: Dimensions;
  readonly layout: Layout;
  readonly modes: readonly Mode[];
  readonly parameters: readonly string[];
  readonly parameterIndex: ReadonlyMap<string, number>;
}

export function machineFromDescription(description: MachineDescription): Machine {
  const dimensions = dimensionsFromDescription(description);
  const gantry = description.layout === "moving-gantry";
  const modes = [...commonModes(dimensions), ...(gantry ? movingGantryModes(dimensions) : fixedBridgeModes())];
  const parameters = [...modes.map((mode) => mode.id), homingYaw];
  return {
    description,
    dimensions,
    layout: gantry ? movingGantry : fixedBridge,
    modes,
    parameters,
    parameterIndex: new Map(parameters.map((id, index) => [id, index])),
  };
}

/** The machine as it is meant to be: every mode 0. */
export function nominalState(machine: Machine): Float64Array {
  return new Float64Array(machine.parameters.length);
}

/**
 * Standard deviation of the yaw that a homing leaves, mm/m. Over the span it is 0.15 mm with belts and 0.05 mm with
 * screws (common practice, no source); a machine with one motor along Y has none.
 */
export function homingYawSd(machine: Machine): number {
  const { details, W, layout } = machine.dimensions;
  if (layout !== "moving-gantry" || details.motorsOnY === 1) return 0;
  return ((details.drives.y.kind === "belt" ? 0.15 : 0.05) * 1000) / W;
}
