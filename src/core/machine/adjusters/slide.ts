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

// Share of the room between beam and tool that the carriage's plate takes: there the slide's plate lies on.
const PLATE = 0.18;

/** The slide's plate on the carriage: turned side to side, packed fore and aft. */
export function slideOnCarriage({ dimensions: d }: Machine): readonly AdjusterDraft[] {
  const screws = d.details.slideScrewsMm;
  const stands = middleOfTravel(d);
  const middle: Place = [stands[0], betweenFaceAndTool(d, stands[1], PLATE), d.zs];
  const top: Place = [middle[0], middle[1], d.zs + screws.up / 2];
  const bottom: Place = [middle[0], middle[1], d.zs - screws.up / 2];
  // Where the slide hangs in front of the beam, packing behind its top screws pushes the top to the front.
  const hangs = d.ty < 0 ? -1 : 1;
  const shared = {
    level: 2,
    readAgain: readAgain.axis,
    fasteners: {
      words: "the screws of the slide's plate, usually M6",
      places: facingRectangle(middle, screws),
      member: "slide",
      seenFrom: "front",
    },
    stands,
  } as const;
  const cautions = [
    handsIn,
    "The slide can slip down or swing while its plate is loose: stand a block under the spindle and hold it.",
    oneJoint,
    markFirst,
    noKeysLeft,
  ];
  return [
    {
      ...shared,
      id: "slide.side",
      words: "the slide's plate screws, slide turned",
      unit: "mm/m",
      effect: { "slide.lean.side": 1 },
      range: [-15, 15],
      sd: 0.15,
      minutes: 5,
      frees: { "slide.lean.fore": 0.1 },
      moves: {
        words: "the slide's top",
        member: "slide",
        place: top,
        along: toTheRight,
        heldAt: bottom,
        over: { lengthMm: screws.up, words: "between its upper and lower screws" },
      },
      whatHolds: { alsoLoose: "The slide may also tip a little to the front or to the rear.", cautions },
    },
    {
      ...shared,
      id: "slide.packing",
      words: "packing behind the slide: top screws (+) or bottom screws (−)",
      unit: "mm",
      effect: { "slide.lean.fore": (hangs * 1000) / screws.up },
      range: [-1.2, 1.2],
      sd: 0.01,
      minutes: 8,
      frees: { "slide.lean.side": 0.15 },
      packing: "top or bottom",
      leavesLie: { top: "behind the slide's upper screws", bottom: "behind the slide's lower screws" },
      cure: "soft",
      moves: {
        words: "the slide's top",
        member: "slide",
        place: top,
        along: hangs < 0 ? toTheFront : toTheRear,
        heldAt: bottom,
      },
      whatHolds: { alsoLoose: "The slide may also turn a little to the left or to the right.", cautions },
    },
  ];
}
