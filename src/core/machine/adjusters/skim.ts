import type { Machine } from "../machine.ts";
import type { AdjusterDraft } from "./draft.ts";
import { middleOfTravel } from "./place.ts";

/** The bed planed by the machine's own cutter. */
export function bedSkim({ dimensions: d }: Machine): AdjusterDraft {
  return {
    id: "bed.skim",
    words: "the bed, skimmed",
    kind: "skim",
    unit: "",
    effect: {},
    range: [0, 1],
    sd: 0.02,
    minutes: 45,
    level: 6,
    cure: "soft",
    fasteners: {
      words: "nothing is loosened; the machine planes its own bed",
      places: [],
      member: null,
      seenFrom: "above",
    },
    does: "Skim the bed, as deep as its lowest place asks and no deeper.",
    stands: middleOfTravel(d),
    moves: null,
    whatHolds: {
      alsoLoose: "What is printed or drawn on the bed is gone afterwards.",
      cautions: [
        "Every screw head in the board lies deeper than the cut: look at each of them.",
        "Glasses, ear defenders and dust mask on, extraction running; stay beside the machine while it cuts.",
      ],
    },
  };
}
