import type { Machine } from "../machine.ts";
import { SCREW_FROM_EDGE } from "./bed-corners.ts";
import { handsIn, markFirst, noKeysLeft, oneJoint } from "./cautions.ts";
import type { AdjusterDraft } from "./draft.ts";
import { type Place, toTheRear } from "./place.ts";

/** The bed turned on its bearers, until its print or its slots run with the travel. */
export function bedTurn({ dimensions: d }: Machine): AdjusterDraft {
  const { left, right, front, rear } = d.details.bedMm;
  const inset = SCREW_FROM_EDGE;
  return {
    id: "bed.turn",
    words: "the bed's fixing screws, bed turned",
    unit: "mm/m",
    effect: { "grid.yaw": 1 },
    range: [-10, 10],
    sd: 0.3,
    minutes: 8,
    level: 4,
    fasteners: {
      words: "all the screws that hold the bed down, usually M6; those of the corners are drawn",
      places: [front + inset, rear - inset].flatMap((y) => [left + inset, right - inset].map((x): Place => [x, y, 0])),
      member: "bed",
      seenFrom: "above",
    },
    stands: [d.Lx / 2, d.Ly, d.Lz],
    moves: {
      words: "the bed's right edge",
      member: "bed",
      place: [right, (front + rear) / 2, 0],
      along: toTheRear,
      heldAt: [left, (front + rear) / 2, 0],
      over: { lengthMm: right - left, words: "from edge to edge" },
    },
    whatHolds: {
      alsoLoose: null,
      cautions: [
        handsIn,
        "Leaves under the corners slip out when the board is lifted: slide it, do not lift it.",
        oneJoint,
        markFirst,
        noKeysLeft,
      ],
    },
  };
}
