/** What a card of a round says beside the words of its check. */
export interface RoundWords {
  /** Why it stands where it stands in the round. */
  readonly why: string;
  /** What is put right where it does not pass; empty for what is measured and not judged. */
  readonly putRight: string;
}

// Figures: common practice, no source.
const byCheck: Readonly<Record<string, RoundWords>> = {
  "feet-rock": {
    why: "A frame that stands on three feet bends wherever somebody leans, and every height that is read bends with it.",
    putRight:
      "Pack the foot that is free until it holds a strip of paper as firmly as the others, and draw a line round all of them.",
  },
  "grub-screws": {
    why: "A pulley that slips on its shaft comes and goes as play, and no reading of play or scale means anything until it holds.",
    putRight:
      "Turn one of its screws on to the flat of the shaft, clean it, secure it with thread lock of medium strength, tighten, and draw a line of paint across shaft and pulley.",
  },
  "belt-note": {
    why: "Two belts of unequal pull turn the gantry by an amount that changes with the load, and they spoil the scale of Y.",
    putRight:
      "Tighten the lower note until both sound alike within a semitone, and leave the carriage in one place for both.",
  },
  "wheel-preload": {
    why: "A wheel that carries nothing lets the tool rock, and one that is too tight makes it stick and jump.",
    putRight:
      "Turn the eccentric spacer until the wheel just no longer spins free, wipe the guides, and oil blocks as their maker states.",
  },
  "push-and-release": {
    why: "What rocks under a hand rocks under the cutter; what stays away on release is added to the doubt of all that is read at the tip.",
    putRight:
      "Look for the place that moves: preload of wheels or blocks first, then screws, then a tool that sticks out too far.",
  },
  "side-push": {
    why: "A gantry that can be pushed askew by hand is a little different each time its squareness is read.",
    putRight:
      "See to the preload of the wheels and the pull of the belts, then to side plates and wheelbase. No squaring of the frame cures it.",
  },
  "there-and-back": {
    why: "An axis that loses its way at working speed makes every reading under power a reading of that.",
    putRight:
      "Lower acceleration and speed, set the drives' current to what the makers allow, and free whatever drags: guides, cables, hose.",
  },
  "gross-scale": {
    why: "A wrong factor is no deviation to be tuned out: it is put right by counting teeth, leads or microsteps before anything fine is measured.",
    putRight:
      "Count teeth, lead and microsteps and enter the figure that follows from them; the fine one comes later, from the travel.",
  },
  "gap-under-beam": {
    why: "It says most for the least: a block and leaves show how the beam lies to the bed over the whole working area.",
    putRight: "",
  },
  "stop-gaps": {
    why: "It is the first look at squareness, and its scatter shows at once whether the gantry sits loose.",
    putRight: "",
  },
  turnaround: {
    why: "Play (lost motion, backlash) spoils circles and fits more than any angle does, and it is quickly read.",
    putRight: "",
  },
  "tram-sweep": {
    why: "An axis that leans against the bed leaves ridges and cuts a flat cutter's groove hollow.",
    putRight: "",
  },
  "hole-rectangle": {
    why: "What the machine itself has marked tells its own squareness and scale, whatever was printed or squared beneath it.",
    putRight: "",
  },
};

const none: RoundWords = { why: "", putRight: "" };

export function roundWordsOf(check: string): RoundWords {
  return byCheck[check] ?? none;
}
