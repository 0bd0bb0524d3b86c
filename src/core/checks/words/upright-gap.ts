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
    "Decide what to read: side, with the square standing left of the flank, or fore, with it standing before the flank.",
    "Stand the square on the plate, push it along until its blade touches at one of the two heights, and fill the gap at the other with leaves.",
    "Enter the gap at the upper and at the lower height; the one that touches is 0.",
    "Stand the square at the opposite flank, right or rear, and read again; state on which side it stands.",
    "Read the first gap once more.",
    "A long flank allows a second run with Z higher up, which is entered by itself.",
  ],
  sign: "The reading is the upper gap less the lower gap. Plus with the square at the left: the spindle leans to the right as it goes up. Plus with the square in front: it leans to the rear. From the opposite side it is the other way.",
  goesWrong: [
    "Left or right, front or rear of the square goes unrecorded.",
    "A tapered or ribbed housing is used as if it were straight.",
    "The flank is taken for the axis of the cutter; it may stand 0.5 mm/m or more away from it, and the axis itself shows only in the tram.",
  ],
  typical: "Over 100 mm of height 0.3–0.6 mm just built, 0.1 mm once set.",
  cautions: ["hands in"],
};
