import { figure } from "../../core/drawing/figure.ts";
import { type DimensionLine, dimension } from "../../core/drawing/lines.ts";
import { beamCentreY, partsOfMachine } from "../../core/drawing/machine-parts.ts";
import { machineView } from "../../core/drawing/machine-view.ts";
import { frontOfMachine } from "../../core/drawing/marks.ts";
import { extentOf, type Frame, onSheet } from "../../core/drawing/projection.ts";
import type { Svg } from "../../core/drawing/svg.ts";
import type { Machine } from "../../core/machine/machine.ts";
import { standing, travelOf } from "./small-plan.ts";

const WIDE = 344;
/** Room beside and above a view for its dimension lines, px. */
const SIDE = 40;
const OVER = 52;

/** What each letter is measured at, in words. */
const lettered =
  "A is the travel to the right, B the travel to the rear, C the travel upwards, D the left rail, E the right rail, " +
  "F the wheelbase, G the height of the beam, H the tool from the beam.";

/** The eight numbers of a machine where they are measured: from above and from the front, each by its letter. */
export function eightNumbersPicture(machine: Machine): Svg {
  const d = machine.dimensions;
  const pose = standing(machine);
  const parts = partsOfMachine(d, pose);
  const [plan, front] = [extentOf("plan", parts), extentOf("front", parts)];
  const scale = (WIDE - 2 * SIDE) / (plan.high[0] - plan.low[0]);
  const planBottom = OVER + scale * (plan.high[1] - plan.low[1]);
  const frontTop = planBottom + 56;
  const frontBottom = frontTop + scale * (front.high[1] - front.low[1]);
  const across = SIDE - scale * plan.low[0];
  const above: Frame = { view: "plan", scale, origin: [across, OVER + scale * plan.high[1]] };
  const before: Frame = { view: "front", scale, origin: [across, frontTop + scale * front.high[1]] };
  const at = (x: number, y: number) => onSheet(above, [x, y, 0]);
  const up = (x: number, z: number) => onSheet(before, [x, 0, z]);
  const beam = beamCentreY(d, pose);
  const foot = d.layout === "moving-gantry" ? beam : pose.y;
  const far = WIDE - SIDE;
  const lines: readonly DimensionLine[] = [
    { text: "A", along: "x", at: OVER - 12, from: at(0, d.Ly), to: at(d.Lx, d.Ly) },
    { text: "D", along: "x", at: OVER - 12, from: at(d.xL, d.Ly), to: at(0, d.Ly) },
    { text: "E", along: "x", at: OVER - 34, from: at(0, d.Ly), to: at(d.xR, d.Ly) },
    { text: "B", along: "y", at: far + 24, from: at(d.Lx, 0), to: at(d.Lx, d.Ly) },
    { text: "F", along: "y", at: SIDE - 16, from: at(d.xL, foot - d.b / 2), to: at(d.xL, foot + d.b / 2) },
    { text: "H", along: "y", at: at(pose.x, 0)[0] + 44, from: at(pose.x, pose.y), to: at(pose.x, beam) },
    { text: "C", along: "y", at: up(pose.x, 0)[0] + 44, from: up(pose.x, 0), to: up(pose.x, d.Lz) },
    { text: "G", along: "y", at: far + 24, from: up(d.xR, 0), to: up(d.xR, d.zb) },
  ];
  const body = [
    machineView(above, parts, { estimate: null, onBed: travelOf(above, machine) }),
    machineView(before, parts, { estimate: null }),
    ...lines.map(dimension),
    frontOfMachine([WIDE / 2, planBottom + 8]),
  ].join("");
  const words = { title: "The eight numbers, from above and from the front", description: lettered };
  return figure(WIDE, frontBottom + 8, words, body, "page");
}
