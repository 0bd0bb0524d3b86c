import type { MachineDescription } from "../core/machine/description.ts";

/** Stands in where somebody asks about a check without a machine of their own. */
export const usualMachine: MachineDescription = {
  name: "a machine of usual size",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 500, z: 70 },
  railPlanesMm: { left: -90, right: 690 },
  wheelbaseMm: 140,
  beamCentreMm: 105,
  toolFromBeamMm: -75,
};
