// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Six diameters of three discs",
  settles: "It tells apart on cut pieces X against Y, the scale of both axes, their play, and the size of the cutter.",
  minutes: 25,
  stage: "cutting",
  tools: [
    "Calipers of 150 mm",
    "Plastic or close-grained board, the same all through",
    "Protractor or printed star of angles",
    "Pencil",
  ],
  steps: [
    "Fix the scrap at the middle of the bed, and plan tabs that keep each disc from coming free.",
    "Write FRONT, an arrow for X and an arrow for the way round on each disc.",
    "Run the program in air.",
    "Rough the first disc, radius 60 mm, to 0.3 mm over size.",
    "Take the rest off in a single pass at full depth, without a stop and in one direction.",
    "Reverse the direction of the cut, and make another disc of that radius.",
    "With the same cutter make a small disc of radius 25 mm, or measure one of its slots instead.",
    "Wait until the spindle stands still, and pull its plug.",
    "Mark 15°, 45°, 75°, 105°, 135° and 165° on each disc, counted from X towards the rear, before any is taken up.",
    "Close the jaws lightly half way down the edge, and take every marked diameter two times.",
    "Measure the first diameter once more.",
  ],
  sign: "Plus: bigger than commanded. The diameter at 45° runs from front left to rear right, the one at 135° from front right to rear left.",
  goesWrong: [
    "The way round is not written on the disc.",
    "The jaws sink into soft board.",
    "A diameter is taken within 10° of left, right, front or rear, where the step from play sits and the jaws bridge it.",
    "Play is blamed on skew. Skew has one long diagonal for both ways round, play has another for each; play that is alike in X and Y sets 15° against 75°; a wrong scale stretches X or Y and does more on a big disc, while play and bending do not care about size.",
  ],
  typical: "Largest less smallest diameter of a 150 mm disc 0.3–1 mm just built, 0.1–0.15 mm once set.",
  cautions: ["cutting", { sentence: "A disc that comes free flies: the tabs stay until the spindle stands still." }],
};
