// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "The same path once more",
  settles:
    "It shows how much machine and cutter bend under the cut, by what a second pass without new depth still takes.",
  minutes: 15,
  stage: "cutting",
  tools: ["Calipers", "Scrap of the later work, or of even, dense board", "Cutter that will do the later work"],
  steps: [
    "Fix the scrap so that nothing can creep.",
    "Cut a straight wall on its left and on its right side at the full depth and feed of the later work, each in one pass.",
    "Wait until the spindle stands still, and pull its plug; leave the scrap fixed.",
    "Measure from wall to wall at a marked place, at half the depth.",
    "Run exactly the same program again, with nothing changed.",
    "Stop as before, and measure the same place.",
    "Take the second width from the first and halve it: so much has one wall lost, and that is entered.",
    "Measure at the marked place once more.",
  ],
  sign: "The reading is what one wall loses in the second pass. Plus: something was taken off.",
  goesWrong: [
    "The scrap has moved between the passes.",
    "A blunt cutter rubs and bends away both times, so that little seems to be missing.",
    "The way round of the cut differs from that of the later work.",
  ],
  typical:
    "0.02–0.05 mm with a short sharp cutter, 0.1–0.3 mm with a long thin or blunt one. For inlay less than a third of the limit may be left to a second pass.",
  cautions: ["cutting"],
};
