import type { Machine } from "../machine.ts";
import { handsIn, noKeysLeft, oneJoint } from "./cautions.ts";
import type { AdjusterDraft } from "./draft.ts";
import { type Place, upwards } from "./place.ts";
import { readAgain } from "./read-again.ts";

// How far a corner's screw stands from the bed's edges; common practice, no source.
export const SCREW_FROM_EDGE = 25;

/**
 * Leaves under the bed's corners. One unit under one corner lifts it by one, the others by nothing, and the bed between
 * them as the product of the two distances: h = (x − x₀)(y − y₀)/(wide·deep) from the opposite corner (x₀, y₀). About the
 * middle of the travel that is a height, a slope each way, and a twist.
 */
export function bedCorners({ dimensions: d }: Machine): readonly AdjusterDraft[] {
  const { bedMm } = d.details;
  const wide = bedMm.right - bedMm.left;
  const deep = bedMm.rear - bedMm.front;
  const corners = [
    ["front", "left"],
    ["front", "right"],
    ["rear", "left"],
    ["rear", "right"],
  ] as const;
  return corners.map(([end, side]): AdjusterDraft => {
    const [right, rear] = [side === "right" ? 1 : -1, end === "rear" ? 1 : -1];
    const shareX = right > 0 ? (d.Lx / 2 - bedMm.left) / wide : (bedMm.right - d.Lx / 2) / wide;
    const shareY = rear > 0 ? (d.Ly / 2 - bedMm.front) / deep : (bedMm.rear - d.Ly / 2) / deep;
    return {
      id: `bed.${end}.${side}`,
      words: `packing under the bed's ${end} ${side} corner`,
      unit: "mm",
      effect: {
        "bed.height": shareX * shareY,
        "bed.tilt.x": (right * 1000 * shareY) / wide,
        "bed.tilt.y": (rear * 1000 * shareX) / deep,
        "bed.twist": (right * rear * d.Lx * d.Ly) / (4 * wide * deep),
      },
      range: [0, 1.5],
      sd: 0.05,
      minutes: 8,
      level: 4,
      packing: "one place",
      cure: "soft",
      readAgain: readAgain.bed,
      fasteners: {
        words: `the screw at the bed's ${end} ${side} corner, usually M6; its neighbours are eased`,
        places: [[bedMm[side] - right * SCREW_FROM_EDGE, bedMm[end] - rear * SCREW_FROM_EDGE, 0]] as readonly Place[],
        member: "bed",
        seenFrom: "above",
      },
      leavesLie: { only: `under the bed's ${end} ${side} corner` },
      // Out of the way, over the other end of the bed.
      stands: [d.Lx / 2, end === "front" ? d.Ly : 0, d.Lz],
      moves: {
        words: `the bed's ${end} ${side} corner`,
        member: "bed",
        place: [bedMm[side], bedMm[end], 0],
        along: upwards,
        heldAt: null,
      },
      whatHolds: {
        alsoLoose: null,
        cautions: [
          handsIn,
          "Pry the corner with a wooden wedge, no higher than the leaves need, and keep fingers from under the board.",
          oneJoint,
          noKeysLeft,
        ],
      },
    };
  });
}
