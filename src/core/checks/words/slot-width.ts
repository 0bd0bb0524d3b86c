// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Width of one slot",
  settles: "It shows how wide the cutter really cuts, which is its size and the runout together.",
  minutes: 10,
  stage: "cutting",
  tools: ["Calipers, or leaves and a pin of known size", "Offcut of plastic or of close-grained board"],
  steps: [
    "Fix the scrap so that nothing can creep.",
    "Run the program in air.",
    "Cut one straight slot, 60 mm long and half the cutter's width deep, in one pass, at the feed of the later work.",
    "Raise the cutter at the end of the slot; do not run back through it.",
    "Wait until the spindle stands still, pull its plug and blow the slot clean.",
    "Measure the width at two places, well clear of both ends, with light jaws.",
    "Measure the first place once more.",
    "Keep the result with this cutter, and measure again after it has been ground or has struck something.",
  ],
  sign: "The width itself is read. More than the cutter's stated size: runout, or a bigger cutter. Less: a worn or smaller cutter.",
  goesWrong: [
    "The cutter passes twice, and the second pass takes what bending had left.",
    "The width is taken at the start, where the cutter went down and stirred.",
    "Fluff on the walls of soft board counts as wood.",
  ],
  typical: "Within 0.05 mm of the stated size with a good collet; up to 0.1 mm over it where the runout is large.",
  cautions: ["cutting"],
};
