// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Width of a V groove along a strip",
  settles: "It shows on a cut strip how the depth of cut changes along X and along Y.",
  minutes: 20,
  stage: "cutting",
  tools: [
    "V cutter of 60° or 90°",
    "Two long strips of even thickness",
    "Loupe with a scale, or calipers",
    "Flat sanding block",
    "Leaf",
  ],
  steps: [
    "Fix the first strip along X over the places that matter, and try with a leaf that it lies down everywhere.",
    "Write LEFT on its left end, and number the stations along it.",
    "Touch off once, in the middle of the strip, and do not touch off again in this run.",
    "Let the cutter run from one end to the other without a change of depth, 2 mm down, in a single pass.",
    "Wait until the spindle stands still, pull its plug, and take the burr off with the flat block.",
    "Read the width at each station through the loupe, straight from above.",
    "Read the first station once more.",
    "Swap the ends of the strip and fix it again; put another groove at the old depth next to the first one, and enter its widths as those of a turned strip.",
    "Do the second strip along Y in the same way.",
  ],
  sign: "The reading is the width less the nominal width. Plus: wider and so deeper; the tool runs low or the surface stands high there.",
  goesWrong: [
    "A strip that is thicker at one end is read as the machine; turning it tells the two apart.",
    "What looks wide is only burr.",
    "The tips of the calipers dip into the groove.",
    "The strip bridges a hollow and springs under the cutter.",
  ],
  typical:
    "From end to end of 500 mm the width changes by 0.4–1.5 mm just after building, by 0.15 mm once set. One millimetre of depth makes 2 mm of width with a 90° cutter and 1.15 mm with a 60° one.",
  cautions: ["cutting", { sentence: "Tape or clamps hold the strip down, never fingers." }],
};
