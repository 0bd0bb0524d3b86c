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
    "Put the plate down before the beam, on a wiped bed; without it a short square only shows the bumps it stands on.",
    "Begin at the left station: set the square down on the plate, and push it towards the beam until its blade meets the face.",
    "Where it touches at the lower height, fill the gap at the upper one with leaves; where it touches above, fill the gap below.",
    "Enter both gaps; the one that touches is 0.",
    "State whether the square stands in front of the beam or behind it.",
    "Go on to the middle and the right one, without turning the square.",
    "Read the first station once more.",
  ],
  sign: "The reading is the upper gap less the lower gap. Plus with the square in front of the beam: the face leans to the rear as it goes up. Plus with the square behind: it leans to the front as it goes up.",
  goesWrong: [
    "Nobody has noted whether the square stood in front or behind.",
    "A chip of 0.1 mm lifts one end of a 70 mm foot, and 1.4 mm/m are gained or lost.",
    "The gap is taken over a groove of the profile.",
  ],
  typical:
    "Over 80 mm of height 0.2–0.5 mm just built, 0.1 mm once set; over 40 mm half of that. Where left and right differ, the beam is twisted or the side plates do not agree.",
  cautions: ["hands in"],
};
