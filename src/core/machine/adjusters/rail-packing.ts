import type { Machine } from "../machine.ts";
import { axisRolls, handsIn, markFirst, noKeysLeft, oneJoint } from "./cautions.ts";
import type { AdjusterDraft } from "./draft.ts";
import { type Place, railY, upwards } from "./place.ts";
import { readAgain } from "./read-again.ts";

// How far the two screws of a rail's end stand from it; common practice, no source.
const SCREWS_FROM_END = [15, 45];

/**
 * Leaves under the four ends of the rails. A rail stays straight and lies on its other packing place: one unit at v lifts
 * the place u by (w − u)/(w − v), w the other packing place; the rail's modes are its heights at u = 0 and u = 1.
 */
export function railPacking({ dimensions: d }: Machine): readonly AdjusterDraft[] {
  const { packingPlaces } = d.details;
  const gantry = d.layout === "moving-gantry";
  return (["left", "right"] as const).flatMap((side) =>
    (["front", "rear"] as const).map((end): AdjusterDraft => {
      const v = packingPlaces[end];
      const other = packingPlaces[end === "front" ? "rear" : "front"];
      const x = d.railLeft + (side === "right" ? d.railSpan : 0);
      // What rides on the rails stands at their other end; a table does so when the tool is on this side of the work.
      const y = (end === "front") === gantry ? d.Ly : 0;
      const at = railY(d, v, y);
      const inwards = end === "front" ? 1 : -1;
      return {
        id: `rail.${side}.${end}`,
        words: `packing under the ${side} rail's ${end} end`,
        unit: "mm",
        effect: {
          [`rail.${side}.front`]: other / (other - v),
          [`rail.${side}.rear`]: (other - 1) / (other - v),
        },
        range: [0, 1],
        sd: 0.02,
        minutes: 10,
        level: 0,
        packing: "one place",
        cure: "soft",
        readAgain: readAgain.beamOverBed,
        fasteners: {
          words: `the last two screws at the ${side} rail's ${end} end, usually M5 or M6`,
          places: SCREWS_FROM_END.map((from): Place => [x, at + inwards * from, d.zr]),
          member: "rails",
          seenFrom: "above",
        },
        leavesLie: { only: `under the ${side} rail's ${end} end` },
        stands: [d.Lx / 2, y, d.Lz],
        moves: {
          words: `the ${side} rail's ${end} end`,
          member: "rails",
          place: [x, at, d.zr],
          along: upwards,
          heldAt: [x, railY(d, other, y), d.zr],
        },
        whatHolds: {
          alsoLoose: null,
          cautions: [
            handsIn,
            `Move the ${gantry ? "gantry" : "table"} to the other end of the rails first, so that no weight stands on this one. ${axisRolls}`,
            "Ease the two screws only as far as a leaf needs; the other screws of the rail stay tight.",
            oneJoint,
            markFirst,
            noKeysLeft,
          ],
        },
      };
    }),
  );
}
