import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import type { Pose } from "../machine/joint.ts";
import type { Machine } from "../machine/machine.ts";
import { placeOfAdjuster } from "./adjuster-where.ts";
import type { Place } from "./machine-parts.ts";
import { type Box, stationMarks } from "./mark-places.ts";
import { adjusterHexagon } from "./marks.ts";
import { type Frame, onSheet } from "./projection.ts";
import type { Svg } from "./svg.ts";

export interface LetteredJoints {
  readonly machine: Machine;
  readonly adjusters: readonly Adjuster[];
  readonly pose: Pose;
  /** Name of the adjuster that is at hand. */
  readonly now: string | null;
}

/** The letters of the joints whose screws are seen in a view: those seen from above in plan, all others in front view. */
export function lettersInView(
  frame: Frame,
  { machine, adjusters, pose, now }: LetteredJoints,
  bounds: Box,
  taken: readonly Box[] = [],
): Svg {
  const marks = adjusters
    .filter(
      ({ fasteners: { places, seenFrom } }) => places.length > 0 && (seenFrom === "above") === (frame.view === "plan"),
    )
    .map((adjuster) => ({
      at: onSheet(frame, placeAtPose(machine, adjuster, pose)),
      number: adjuster.letter,
      state: adjuster.id === now ? ("now" as const) : ("open" as const),
    }));
  return stationMarks(marks, bounds, taken, (at, letter, state) =>
    adjusterHexagon(at, String(letter), state === "now" ? "now" : "open"),
  );
}

/** Where the joint is when the machine stands at the pose and not where it stands for the work at the joint. */
function placeAtPose({ layout }: Machine, adjuster: Adjuster, pose: Pose): Place {
  const [x, y, z] = placeOfAdjuster(adjuster);
  const [sx, sy, sz] = adjuster.stands;
  const { member } = adjuster.fasteners;
  const withTool = member === "slide" || member === "spindle";
  // A place of the frame goes past a table that carries the work; a rail is a part of the frame.
  const goesAlongY =
    layout.workBranch.length > 0
      ? member !== "bed"
      : withTool || member === "beam" || (member === "rails" && adjuster.packing === "none");
  return [
    x + (withTool ? pose.x - sx : 0),
    y + (goesAlongY ? pose.y - sy : 0),
    z + (member === "spindle" ? pose.z - sz : 0),
  ];
}
