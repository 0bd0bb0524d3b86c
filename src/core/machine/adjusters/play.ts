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
      // Before all that is trimmed, or read, through a drive; after the joints that carry the drives.
      level: 0,
      cure: "soft",
      leaves: { [`backlash.${axis}`]: [0.03, 0.015] },
      fasteners: {
        words: "no joint is opened; the play is taken up at the drive",
        places: [],
        member: null,
        seenFrom: "front",
      },
      does: `Take up the play of ${name}: ${howToTakeUp(d.details.drives[axis].kind)}.`,
      stands: middleOfTravel(d),
      moves: null,
      whatHolds: { alsoLoose: null, cautions: [handsIn, cautionFor(axis, d.details.drives[axis].kind)] },
    };
  });
}

/** Where play comes from, and what takes it up. */
function howToTakeUp(drive: "belt" | "screw"): string {
  return drive === "belt"
    ? "tighten the pulleys' grub screws on their flats, then pull the belt to its note"
    : "tighten the clamp screws of the coupling and the end bearing of the screw, then take up the nut's preload";
}

function cautionFor(axis: Axis, drive: "belt" | "screw"): string {
  if (axis === "z") return "The slide drops when its drive is opened: block it first.";
  return drive === "belt" ? axisRolls : "A nut that is set too tight heats and wears: the screw still turns by hand.";
}
