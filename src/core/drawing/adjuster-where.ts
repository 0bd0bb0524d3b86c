import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import { poseAt } from "../machine/joint.ts";
import type { Machine } from "../machine/machine.ts";
import { hexagonRadius } from "./adjuster-marks.ts";
import type { Point } from "./lines.ts";
import { type Place, partsOfMachine } from "./machine-parts.ts";
import { machineView } from "./machine-view.ts";
import { adjusterHexagon, frontOfMachine } from "./marks.ts";
import { extentOf, type Frame, onSheet } from "./projection.ts";
import type { Svg } from "./svg.ts";

// No joint is as wide as this, mm: such screws hold something at both its sides.
const FAR_APART = 250;

/** The machine from above, small, with the adjuster's letter. */
export function whereItIs(machine: Machine, adjuster: Adjuster, [columnLeft, columnWidth]: Point): Svg {
  const pose = poseAt(...adjuster.stands);
  const parts = partsOfMachine(machine.dimensions, pose);
  const { low, high } = extentOf("plan", parts);
  const scale = Math.min((columnWidth - 16) / (high[0] - low[0]), 80 / (high[1] - low[1]));
  const left = columnLeft + (columnWidth - scale * (high[0] - low[0])) / 2;
  const top = 18;
  const frame: Frame = { view: "plan", scale, origin: [left - scale * low[0], top + scale * high[1]] };
  const bottom = top + scale * (high[1] - low[1]);
  return (
    machineView(frame, parts, { estimate: null }) +
    adjusterHexagon(onSheet(frame, placeOfAdjuster(adjuster)), adjuster.letter, "now", hexagonRadius(adjuster.letter)) +
    frontOfMachine([columnLeft + columnWidth / 2 + 4, bottom + 12])
  );
}

/** Middle of its screws; where they stand at both sides or there are none, what is watched, or where the tool stands. */
export function placeOfAdjuster({ fasteners, moves, stands }: Adjuster): Place {
  const { places } = fasteners;
  const xs = places.map(([x]) => x);
  if (places.length === 0 || Math.max(...xs) - Math.min(...xs) > FAR_APART) return moves?.place ?? stands;
  return [0, 1, 2].map((i) => places.reduce((sum, place) => sum + place[i]!, 0) / places.length) as unknown as Place;
}
