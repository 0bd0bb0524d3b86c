// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Touching the bed in a field of places",
  settles: "It shows the shape of the bed as the tool meets it: height, slope, twist and dome against the motion.",
  minutes: 15,
  stage: "powered",
  tools: [
    "Pin or old cutter with a rounded tip",
    "Touch plate with its clip, or one strip of paper, or one leaf",
    "Pencil",
  ],
  steps: [
    "Pull the plug of the router, and put a blunt pin in its collet.",
    "Mark the stations on the bed, clear of screw holes, slots and joints: five by five, or three by three at the least.",
    "Put the clip on, and touch plate and pin together by hand: the control must notice before anything comes down.",
    "Set the zero of Z, and do not set it again within the run.",
    "At each station lay plate or paper flat, come down slowly from above, and note Z at the touch.",
    "With paper, go down in steps of 0.05 mm until the same strip drags as it did at the last place.",
    "If you pass the touch, raise the tool and come down again; never correct upwards.",
    "Go back to the first station and touch it once more.",
  ],
  setUp: "Put the blunt pin in the collet, and set the zero of Z once.",
  sign: "Plus, a higher Z at the touch: the bed stands high there, or the tool runs low.",
  goesWrong: [
    "The clip is not on when the pin comes down.",
    "The pin presses into soft board, or the board springs.",
    "There is dust or a chip beneath the plate.",
    "The last place is made to agree with the first by eye.",
  ],
  typical:
    "Over the whole bed 0.5–2 mm just built, 0.1 mm after skimming. In some weeks a board has changed by 0.1–0.3 mm.",
  cautions: [
    "under power",
    {
      sentence:
        "A touch that the control misses runs the pin into the bed: creep over the last millimetres, with a hand ready at the stop.",
    },
  ],
};
