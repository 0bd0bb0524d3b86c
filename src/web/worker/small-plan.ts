import { type FigureUse, figure } from "../../core/drawing/figure.ts";
import { outline } from "../../core/drawing/lines.ts";
import { type Part, type Place, partsOfMachine } from "../../core/drawing/machine-parts.ts";
import { machineView } from "../../core/drawing/machine-view.ts";
import { extentOf, type Frame, onSheet } from "../../core/drawing/projection.ts";
import type { Svg } from "../../core/drawing/svg.ts";
import { type Pose, poseAt } from "../../core/machine/joint.ts";
import type { Machine } from "../../core/machine/machine.ts";

/** The machine from above, true to scale, in a square of so many px and without any lettering. */
export function smallPlan(machine: Machine, size: number, use: FigureUse = "page"): Svg {
  const parts = partsOfMachine(machine.dimensions, standing(machine));
  const frame = frameFor(machine, parts, size, 3);
  const words = {
    title: `${machine.description.name}, from above`,
    description: `${machine.description.travelMm.x} by ${machine.description.travelMm.y} mm of travel, true to scale.`,
  };
  return figure(size, size, words, machineView(frame, parts, { estimate: null, onBed: travelOf(frame, machine) }), use);
}

/** The plan of a machine in the middle of a square, in px. */
export function frameFor(machine: Machine, parts: readonly Part[], size: number, edge: number): Frame {
  const { low, high } = extentOf("plan", parts);
  const [wide, tall] = [high[0] - low[0], high[1] - low[1]];
  const scale = (size - 2 * edge) / Math.max(wide, tall, machine.dimensions.Lx);
  const left = (size - scale * wide) / 2;
  const top = (size - scale * tall) / 2;
  return { view: "plan", scale, origin: [left - scale * low[0], top + scale * high[1]] };
}

/** The working travel, to be drawn on the bed. */
export function travelOf(frame: Frame, machine: Machine): Svg {
  const { Lx, Ly } = machine.dimensions;
  const corners: Place[] = [
    [0, 0, 0],
    [Lx, 0, 0],
    [Lx, Ly, 0],
    [0, Ly, 0],
  ];
  return outline(
    "limit",
    corners.map((place) => onSheet(frame, place)),
  );
}

/** Off the middle, so that no part lies on the middle of another. */
export function standing({ dimensions: { Lx, Ly, Lz } }: Machine): Pose {
  return poseAt(0.32 * Lx, 0.6 * Ly, 0.35 * Lz);
}
