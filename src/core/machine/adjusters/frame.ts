import type { Machine } from "../machine.ts";
import { axisRolls, handsIn, markFirst, noKeysLeft, oneJoint } from "./cautions.ts";
import type { AdjusterDraft } from "./draft.ts";
import { middleOfTravel, type Place, railY, toTheRear, toTheRight } from "./place.ts";
import { readAgain } from "./read-again.ts";

/** Rails pushed on their crosspieces: there are such joints where the gantry travels on them. */
export function framePushes({ dimensions: d, layout }: Machine): readonly AdjusterDraft[] {
  if (layout.workBranch.length > 0) return [];
  const { bedMm, packingPlaces, squaresOnStops } = d.details;
  // Two screws a corner, through the rail into the end of the crosspiece.
  const front = [bedMm.front + 28, bedMm.front + 52];
  const rear = [bedMm.rear - 52, bedMm.rear - 28];
  const screws = (x: number, ys: readonly number[]) => ys.map((y): Place => [x, y, d.zr - 14]);
  const shared = {
    unit: "mm",
    range: [-3, 3],
    sd: 0.2,
    minutes: 25,
    level: 0,
    frees: { "gantry.rack": 1 },
    stands: middleOfTravel(d),
    whatHolds: {
      alsoLoose: "The gantry's yaw changes with the frame: its squareness has to be read and set anew.",
      cautions: [
        handsIn,
        "Hold the frame at this corner: with the screws out of bite a rail may drop off its crosspiece. Let a second person hold it.",
        "Ease the screws until a light tap with a mallet moves the rail, no further.",
        axisRolls,
        oneJoint,
        markFirst,
        noKeysLeft,
      ],
    },
  } as const;
  return [
    {
      ...shared,
      id: "frame.stagger",
      words: "the frame's corner screws, one rail pushed lengthwise",
      // A machine that squares itself on its stops takes its yaw from where they stand.
      effect: { "frame.stagger": 1, ...(squaresOnStops ? { "gantry.rack": 1000 / d.W } : {}) },
      readAgain: readAgain.frame,
      fasteners: {
        words: "the screws at both corners of the right rail, usually M8",
        places: screws(d.xR, [...front, ...rear]),
        member: "frame",
        seenFrom: "above",
      },
      moves: {
        words: "the right rail",
        member: "frame",
        place: [d.xR, railY(d, packingPlaces.front, 0), d.zr],
        along: toTheRear,
        heldAt: null,
      },
    },
    {
      ...shared,
      id: "frame.toe",
      words: "the frame's corner screws, rails pushed apart at the rear",
      effect: { "rail.toe": 1 },
      readAgain: readAgain.spacing,
      fasteners: {
        words: "the screws at the rear corners of both rails, usually M8",
        places: [...screws(d.xL, rear), ...screws(d.xR, rear)],
        member: "frame",
        seenFrom: "above",
      },
      moves: {
        words: "the right rail's rear end",
        member: "frame",
        place: [d.xR, railY(d, packingPlaces.rear, 0), d.zr],
        along: toTheRight,
        heldAt: [d.xL, railY(d, packingPlaces.rear, 0), d.zr],
      },
    },
  ];
}
