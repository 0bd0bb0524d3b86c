import type { Machine } from "../machine.ts";
import { axisRolls, handsIn, markFirst, noKeysLeft, oneJoint } from "./cautions.ts";
import type { AdjusterDraft } from "./draft.ts";
import { type Place, upwards } from "./place.ts";
import { readAgain } from "./read-again.ts";

/** The beam's ends in the slots of their side plates. */
export function beamSeats({ dimensions: d }: Machine): readonly AdjusterDraft[] {
  const half = d.zb - d.zu;
  const up = Math.min(d.details.plateScrewsMm, 1.3 * half) / 2;
  const along = Math.abs(d.yf) * 0.65;
  const y = d.Ly / 2;
  const yb = y - d.ty;
  // Heads on the outer faces of the plates, or of a bridge's columns.
  const gantry = d.layout === "moving-gantry";
  const outwards = gantry ? 36 : 18;
  return (["left", "right"] as const).map((side): AdjusterDraft => {
    const [plane, other] = side === "left" ? [d.xL, d.xR] : [d.xR, d.xL];
    const x = plane + (side === "left" ? -outwards : outwards);
    return {
      id: `beam.${side}`,
      words: `the ${side} side-plate screws`,
      unit: "mm",
      effect: { [`beam.${side}`]: 1 },
      range: [-0.6, 0.6],
      sd: 0.03,
      minutes: 4,
      level: 1,
      frees: { "beam.roll": 0.2 },
      readAgain: readAgain.beamOverBed,
      fasteners: {
        words: `the screws in the slots of the ${side} ${gantry ? "side plate" : "column"}, usually M6`,
        places: [up, -up].flatMap((dz) => [-along, along].map((dy): Place => [x, yb + dy, d.zb + dz])),
        member: "beam",
        seenFrom: side,
      },
      stands: [d.Lx / 2, y, d.Lz],
      moves: {
        words: `the beam's ${side} end`,
        member: "beam",
        place: [plane, yb, d.zu],
        along: upwards,
        heldAt: [other, yb, d.zu],
      },
      whatHolds: {
        alsoLoose: "The beam can also roll a little about its length while this end is loose.",
        cautions: [
          handsIn,
          "The beam drops when these screws are loose: stand a block and packing under this end before the first one is eased.",
          `Park the carriage in the middle, so that its weight is shared. ${axisRolls}`,
          oneJoint,
          markFirst,
          noKeysLeft,
        ],
      },
    };
  });
}
