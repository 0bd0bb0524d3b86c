// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Face of the beam against upright",
  settles:
    "It shows whether the front face of the beam leans to the front or to the rear, and whether the beam is twisted.",
  minutes: 5,
  stage: "gantry on rails",
  tools: ["Square", "Feeler leaves", "Flat plate or a piece of thick glass", "Pencil"],
  steps: [
    "Mark two heights on the face of the beam, one 40 mm above the other, clear of grooves.",
    "Park the carriage at one end, clear of the three stations, and leave it there.",
    "Lay the plate on the bed in front of the beam, with nothing under it: a short square on the bare bed reads the bumps under its own foot.",
    "Stand the square on the plate and slide it to the beam until its upright edge touches the face.",
    "Where it touches at the lower height, fill the gap at the upper one with leaves; where it touches above, fill the gap below.",
    "Enter both gaps; the one that touches is 0.",
    "State whether the square stands in front of the beam or behind it.",
    "Do the left, the middle and the right station with the square the same way round.",
    "Read the first station once more.",
  ],
  sign: "The reading is the upper gap less the lower gap. Square in front of the beam, plus: the top of the face leans to the rear. Square behind it, plus: the top leans to the front.",
  goesWrong: [
    "The side on which the square stands is not stated.",
    "The foot of the square stands on a chip: 0.1 mm under 70 mm makes 1.4 mm/m.",
    "The gap is taken over a groove of the profile.",
  ],
  typical:
    "Over 80 mm of height 0.2–0.5 mm just built, 0.1 mm once set; over 40 mm half of that. Where left and right differ, the beam is twisted or the side plates do not agree.",
  cautions: ["hands in"],
};
