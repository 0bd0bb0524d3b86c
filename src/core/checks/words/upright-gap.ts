// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Flank of the spindle against upright",
  settles:
    "It shows how far the housing of the spindle, or the slide, leans to the side and fore and aft over the bed.",
  minutes: 5,
  stage: "slide mounted",
  tools: ["Square", "Feeler leaves", "Flat plate or a piece of thick glass", "Pencil"],
  steps: [
    "Move X and Y to the middle of the bed, and block Z so that the slide cannot drop.",
    "Lay the plate on the bed under the spindle, with nothing beneath it.",
    "Mark two heights on a straight flank of the housing, 80 mm apart; before the spindle is there, use the slide.",
    "For the side reading stand the square to the left of the flank, for the fore reading in front of it.",
    "Slide it up until its upright edge touches one of the two heights, and fill the gap at the other with leaves.",
    "Enter the gap at the upper and at the lower height; the one that touches is 0.",
    "Stand the square at the opposite flank, right or rear, and read again; state on which side it stands.",
    "Read the first gap once more.",
    "If the flank is long enough, do it all with Z low and again with Z high, each as a run of its own.",
  ],
  sign: "The reading is the upper gap less the lower gap. Square to the left, plus: the top leans to the right. Square in front, plus: the top leans to the rear. From the opposite side it is the other way.",
  goesWrong: [
    "The side on which the square stands is not stated.",
    "A tapered or ribbed housing is used as if it were straight.",
    "The flank is taken for the axis of the cutter; the two can differ by 0.5 mm/m and more, and the tram sweep alone reads the axis.",
  ],
  typical: "Over 100 mm of height 0.3–0.6 mm just built, 0.1 mm once set.",
  cautions: ["hands in"],
};
