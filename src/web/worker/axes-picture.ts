import { figure } from "../../core/drawing/figure.ts";
import { lettering } from "../../core/drawing/lettering.ts";
import { dot, wayArrow } from "../../core/drawing/lines.ts";
import { partsOfMachine } from "../../core/drawing/machine-parts.ts";
import { machineView } from "../../core/drawing/machine-view.ts";
import { frontOfMachine } from "../../core/drawing/marks.ts";
import { onSheet } from "../../core/drawing/projection.ts";
import type { Svg } from "../../core/drawing/svg.ts";
import type { Machine } from "../../core/machine/machine.ts";
import type { UserCoordinates } from "../../core/machine/user-coordinates.ts";
import { frameFor, standing, travelOf } from "./small-plan.ts";

/** The user's own axes over the machine from above: their zero, and which way their numbers grow. */
export function axesPicture(machine: Machine, { axes }: UserCoordinates): Svg {
  const size = 300;
  const parts = partsOfMachine(machine.dimensions, standing(machine));
  const frame = frameFor(machine, parts, size, 26);
  const { Lx, Ly, Lz } = machine.dimensions;
  const zero = onSheet(frame, [axes.x.zeroMm, axes.y.zeroMm, 0]);
  const reach = 0.45 * Math.max(Lx, Ly);
  const endX = onSheet(frame, [axes.x.zeroMm + axes.x.direction * reach, axes.y.zeroMm, 0]);
  const endY = onSheet(frame, [axes.x.zeroMm, axes.y.zeroMm + axes.y.direction * reach, 0]);
  const body = [
    machineView(frame, parts, { estimate: null, onBed: travelOf(frame, machine) }),
    wayArrow(zero, endX),
    wayArrow(zero, endY),
    dot(zero, 5),
    lettering(axes.x.named, [endX[0] - 12 * axes.x.direction, endX[1] - 8], {
      size: 17,
      weight: "strong",
      anchor: "middle",
    }),
    lettering(axes.y.named, [endY[0] + 14, endY[1] + (axes.y.direction > 0 ? 14 : -4)], {
      size: 17,
      weight: "strong",
      anchor: "middle",
    }),
    frontOfMachine([size / 2, size - 24]),
  ].join("");
  const up = axes.z.direction > 0 ? "up" : "down";
  const told = [
    `The dot is the zero of ${axes.x.named} and ${axes.y.named}.`,
    `${axes.x.named} grows to the ${axes.x.direction > 0 ? "right" : "left"}, ${axes.y.named} to the ${axes.y.direction > 0 ? "rear" : "front"}, ${axes.z.named} ${up}.`,
    `The zero of ${axes.z.named} is ${axes.z.zeroMm} mm over the bed, of ${Lz} mm of travel.`,
  ];
  return figure(size, size, { title: "Your axes, from above", description: told.join(" ") }, body, "page");
}
