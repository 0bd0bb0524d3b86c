// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Length of travel",
  settles: "It shows whether an axis moves as far as it is told to, in mm per metre.",
  minutes: 10,
  stage: "powered",
  tools: ["Steel rule with a loupe, or calipers, or a block of known length with a dial", "Sharp pin for the collet"],
  steps: [
    "Make sure that the rough scale is right before you look for fine figures.",
    "Lay the rule along the axis, on edge, and bring the pin close above its graduation.",
    "Move 5 mm in the plus direction, so that play is taken up, and set zero there.",
    "Command the first length of the list, still in plus, and read where the point stands.",
    "Go on in plus to each longer length, and read.",
    "Go back beyond zero, come up to zero in plus, and see that it reads zero again.",
    "Do the whole run three times.",
    "With calipers, read from a fixed stop to the carriage; with a block, bring the dial to the same number at both of its ends.",
    "For Z use a block and the dial, always arriving from the same side.",
    "Enter the rule that you used: what it is out by is in every one of its readings.",
  ],
  sign: "Plus: the axis has moved further than it was told to.",
  goesWrong: [
    "The zero is set after a move in minus, and the play counts as scale.",
    "The steps per mm are set from 50 mm, where a slip of 0.1 mm is already 2 mm/m.",
    "They are set from cut parts, whose size holds the cutter and its bending as well.",
  ],
  typical:
    "Belts 1–5 mm/m at first and 0.2 mm/m once set; screws 0.2–1 mm/m and 0.1 mm/m. Above 10 mm/m it is a wrong count of teeth, lead, microsteps or unit, and no fine figure cures that.",
  cautions: ["under power", { sentence: "Before each move, look that neither rule nor hand is in its way." }],
};
