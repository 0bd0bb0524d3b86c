// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "A line along X against the motion",
  settles:
    "It shows how far a line drawn from left to right and the motion in X run apart; which of the two is out stays open.",
  minutes: 6,
  stage: "spindle mounted",
  tools: ["Straight sharp pin for the collet", "Loupe, with a scale if possible", "Sheet of paper"],
  steps: [
    "Put the pin in the collet, nip it up, and leave the spindle unturned for the whole run.",
    "Move the X axis to the left, and lower the pin to the thickness of a sheet of paper above the bed.",
    "Move the Y axis until the point stands on a printed line that runs from left to right.",
    "Hold Y from here on: drives on, or the axis clamped at both sides.",
    "Move the X axis to the right and stop at each station.",
    "Look along the line from the left or the right, and read through the loupe how far the point stands beside it.",
    "Return past the left station, come up to it towards the right again, and read it once more.",
    "Where there is no printed grid, use a taut line or a knife line on paper; if line-along-y was read on the same sheet, leave that sheet exactly as it lies.",
    "Marks pricked by the machine itself can stand in too, but a square can not be judged from them alone.",
  ],
  sign: "Plus: the point stands to the rear of the line.",
  goesWrong: [
    "The hand that moves the carriage pushes the Y axis as well.",
    "The distance is read along the line and not across it.",
    "The two line checks are read on two sheets, and are then compared as if they were one.",
  ],
  typical:
    "As for a line along Y: 1–4 mm/m at first, 0.3 mm/m once shifted. The two slopes together give X against Y only as far as the corners of the sheet are square, and its diagonals tell that.",
  cautions: [
    "under power",
    { sentence: "If the carriage is pushed by hand, pull the plug first. The pin is sharp: look from beside it." },
  ],
};
