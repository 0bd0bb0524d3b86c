// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Six diameters of three discs",
  settles: "It tells apart on cut pieces X against Y, the scale of both axes, their play, and the size of the cutter.",
  minutes: 25,
  stage: "cutting",
  tools: [
    "Calipers of 150 mm",
    "Scrap of even, dense board or plastic",
    "Protractor or printed star of angles",
    "Pencil",
  ],
  steps: [
    "Fix the scrap at the middle of the bed, and plan tabs that keep each disc from coming free.",
    "Write FRONT, an arrow for X and an arrow for the way round on each disc.",
    "Run the program in air.",
    "Rough the first disc, radius 60 mm, to 0.3 mm over size.",
    "Finish it at full depth in one pass without a stop, one way round.",
    "Cut a second disc of the same size the other way round.",
    "Cut a third disc of radius 25 mm with the same cutter; the width of one slot can stand in for it.",
    "Wait until the spindle stands still, and pull its plug.",
    "Mark 15°, 45°, 75°, 105°, 135° and 165° on each disc, counted from X towards the rear, before any is taken up.",
    "Measure each of these diameters twice, with light jaws, at half the thickness.",
    "Measure the first diameter once more.",
  ],
  sign: "Plus: bigger than commanded. The diameter at 45° runs from front left to rear right, the one at 135° from front right to rear left.",
  goesWrong: [
    "The way round is not written on the disc.",
    "The jaws sink into soft board.",
    "A diameter is taken within 10° of left, right, front or rear, where the step from play sits and the jaws bridge it.",
    "Play is blamed on skew. Skew keeps its long diagonal whichever way the disc was cut, play changes it; equal play in X and Y shows between 15° and 75°; scale lies along X or Y and grows with the disc, while play and bending stay the same size.",
  ],
  typical: "Largest less smallest diameter of a 150 mm disc 0.3–1 mm just built, 0.1–0.15 mm once set.",
  cautions: ["cutting", { sentence: "A disc that comes free flies: the tabs stay until the spindle stands still." }],
};
