import type { Axis } from "../description.ts";
import type { Machine } from "../machine.ts";
import { axisRolls, handsIn } from "./cautions.ts";
import type { AdjusterDraft } from "./draft.ts";
import { middleOfTravel } from "./place.ts";

/** Play taken up at the drive of each axis: it becomes what a good drive has, whatever it was. */
export function playTakeUps({ dimensions: d }: Machine): readonly AdjusterDraft[] {
  return (["x", "y", "z"] as const).map((axis): AdjusterDraft => {
    const name = axis.toUpperCase();
    return {
      id: `play.${axis}`,
      words: `take up the play of ${name}`,
      kind: "assign",
      unit: "",
      effect: {},
      range: [0, 1],
      sd: 0,
      minutes: 10,
      level: 2,
      cure: "soft",
      leaves: { [`backlash.${axis}`]: [0.03, 0.015] },
      fasteners: {
        words: `no joint is opened; ${howToTakeUp(d.details.drives[axis].kind)}`,
        places: [],
        member: null,
        seenFrom: "front",
      },
      stands: middleOfTravel(d),
      moves: null,
      whatHolds: { alsoLoose: null, cautions: [handsIn, cautionFor(axis, d.details.drives[axis].kind)] },
    };
  });
}

/** Where play comes from, and what takes it up. */
export function howToTakeUp(drive: "belt" | "screw"): string {
  return drive === "belt"
    ? "the grub screws of the pulleys are tightened on their flats, then the belt is pulled to its note"
    : "the coupling's clamp screws and the screw's end bearing are tightened, then the nut's preload is taken up";
}

function cautionFor(axis: Axis, drive: "belt" | "screw"): string {
  if (axis === "z") return "The slide drops when its drive is opened: block it first.";
  return drive === "belt" ? axisRolls : "A nut that is set too tight heats and wears: the screw still turns by hand.";
}
