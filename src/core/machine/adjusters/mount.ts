import type { Machine } from "../machine.ts";
import { handsIn, markFirst, noKeysLeft, oneJoint } from "./cautions.ts";
import type { AdjusterDraft } from "./draft.ts";
import {
  betweenFaceAndTool,
  facingRectangle,
  middleOfTravel,
  type Place,
  toTheFront,
  toTheRear,
  toTheRight,
} from "./place.ts";
import { readAgain } from "./read-again.ts";

// Share of the room between beam and tool at which the mount lies on the slide.
const SLIDE = 0.42;

/** The spindle's mount on the slide: turned side to side, packed fore and aft. */
export function mountOnSlide({ dimensions: d }: Machine): readonly AdjusterDraft[] {
  const screws = d.details.mountScrewsMm;
  const stands = middleOfTravel(d);
  const middle: Place = [stands[0], betweenFaceAndTool(d, stands[1], SLIDE), stands[2] + d.zm];
  const top: Place = [middle[0], middle[1], middle[2] + screws.up / 2];
  const bottom: Place = [middle[0], middle[1], middle[2] - screws.up / 2];
  const hangs = d.ty < 0 ? -1 : 1;
  const shared = {
    level: 3,
    readAgain: readAgain.axis,
    fasteners: {
      words: "the screws of the spindle's mount, usually M6",
      places: facingRectangle(middle, screws),
      member: "spindle",
      seenFrom: "front",
    },
    stands,
  } as const;
  const cautions = [
    handsIn,
    "Spindle and mount hang on these screws: hold them, and keep the spindle's clamp shut, or its height is lost as well.",
    oneJoint,
    markFirst,
    noKeysLeft,
  ];
  return [
    {
      ...shared,
      id: "mount.side",
      words: "the spindle mount's screws, mount turned",
      unit: "mm/m",
      effect: { "spindle.tilt.side": 1 },
      range: [-12, 12],
      sd: 0.15,
      minutes: 5,
      frees: { "spindle.tilt.fore": 0.1 },
      moves: {
        words: "the mount's top",
        member: "spindle",
        place: top,
        along: toTheRight,
        heldAt: bottom,
        over: { lengthMm: screws.up, words: "between its upper and lower screws" },
      },
      whatHolds: { alsoLoose: "The mount may also tip a little to the front or to the rear.", cautions },
    },
    {
      ...shared,
      id: "mount.packing",
      words: "packing behind the spindle's mount: top screws (+) or bottom screws (−)",
      unit: "mm",
      effect: { "spindle.tilt.fore": (hangs * 1000) / screws.up },
      range: [-0.6, 0.6],
      sd: 0.01,
      minutes: 8,
      frees: { "spindle.tilt.side": 0.15 },
      packing: "top or bottom",
      leavesLie: { top: "behind the mount's upper screws", bottom: "behind the mount's lower screws" },
      cure: "soft",
      moves: {
        words: "the mount's top",
        member: "spindle",
        place: top,
        along: hangs < 0 ? toTheFront : toTheRear,
        heldAt: bottom,
      },
      whatHolds: { alsoLoose: "The mount may also turn a little to the left or to the right.", cautions },
    },
  ];
}
