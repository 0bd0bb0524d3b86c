import type { Dimensions } from "../dimensions.ts";
import type { Member } from "../modes.ts";
import type { Adjuster } from "./adjuster.ts";
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

/** A plate that hangs on four screws in front of, or behind, what carries it. */
interface HangingPlate {
  readonly id: "slide" | "mount";
  /** "slide" or "mount", as a sentence calls it. */
  readonly named: string;
  readonly level: number;
  readonly member: Member;
  readonly screws: { readonly across: number; readonly up: number };
  readonly screwWords: string;
  /** Share of the room between beam and tool at which it lies on what carries it. */
  readonly share: number;
  /** Height of the middle of its screws, the machine standing in the middle of its travel. */
  readonly z: number;
  readonly sideWords: string;
  readonly packingWords: string;
  /** Modes that turning it and packing it change. */
  readonly modes: { readonly side: string; readonly fore: string };
  readonly sideRange: Adjuster["range"];
  readonly packingRange: Adjuster["range"];
  readonly caution: string;
}

/** Turned side to side on its screws, and packed fore and aft behind the upper or the lower ones. */
export function turnedAndPacked(d: Dimensions, plate: HangingPlate): readonly AdjusterDraft[] {
  const { id, named, screws, member, modes } = plate;
  const stands = middleOfTravel(d);
  const middle: Place = [stands[0], betweenFaceAndTool(d, stands[1], plate.share), plate.z];
  const top: Place = [middle[0], middle[1], middle[2] + screws.up / 2];
  const bottom: Place = [middle[0], middle[1], middle[2] - screws.up / 2];
  // Where it hangs in front of the beam, packing behind its top screws pushes the top to the front.
  const hangs = d.ty < 0 ? -1 : 1;
  const shared = {
    level: plate.level,
    readAgain: readAgain.axis,
    fasteners: {
      words: plate.screwWords,
      places: facingRectangle(middle, screws),
      member,
      seenFrom: "front",
    },
    stands,
  } as const;
  const cautions = [handsIn, plate.caution, oneJoint, markFirst, noKeysLeft];
  return [
    {
      ...shared,
      id: `${id}.side`,
      words: plate.sideWords,
      unit: "mm/m",
      effect: { [modes.side]: 1 },
      range: plate.sideRange,
      sd: 0.15,
      minutes: 5,
      frees: { [modes.fore]: 0.1 },
      moves: {
        words: `the ${named}'s top`,
        member,
        place: top,
        along: toTheRight,
        heldAt: bottom,
        over: { lengthMm: screws.up, words: "between its upper and lower screws" },
      },
      whatHolds: { alsoLoose: `The ${named} may also tip a little to the front or to the rear.`, cautions },
    },
    {
      ...shared,
      id: `${id}.packing`,
      words: plate.packingWords,
      unit: "mm",
      effect: { [modes.fore]: (hangs * 1000) / screws.up },
      range: plate.packingRange,
      sd: 0.01,
      minutes: 8,
      frees: { [modes.side]: 0.15 },
      packing: "top or bottom",
      leavesLie: { top: `behind the ${named}'s upper screws`, bottom: `behind the ${named}'s lower screws` },
      cure: "soft",
      moves: {
        words: `the ${named}'s top`,
        member,
        place: top,
        along: hangs < 0 ? toTheFront : toTheRear,
        heldAt: bottom,
      },
      whatHolds: { alsoLoose: `The ${named} may also turn a little to the left or to the right.`, cautions },
    },
  ];
}
