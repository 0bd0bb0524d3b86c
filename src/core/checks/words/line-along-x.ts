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
    "From here on Y is held, by its drives or by a clamp at either end.",
    "Send the X axis to the right in steps, from station to station.",
    "Look along the line from the left or the right, and read through the loupe how far the point stands beside it.",
    "Return past the left station, come up to it towards the right again, and read it once more.",
    "Where there is no printed grid, use a taut line or a knife line on paper; if a line along Y was read on the same sheet, leave that sheet exactly as it lies.",
    "Marks pricked by the machine itself can stand in too, but a corner cannot be judged from them alone.",
  ],
  setUp: "Nip the pin up in the collet, bring its point over a printed line, and hold Y.",
  sign: "Plus: seen from above, the point is on the rear side of the line.",
  goesWrong: [
    "Y gives way a little while the carriage is pushed along.",
    "The distance is read along the line and not across it.",
    "The two line checks are read on two sheets, and are then compared as if they were one.",
  ],
  typical:
    "1–4 mm/m at first and 0.3 mm/m once shifted, just as for a line along Y. Together with a line along Y it would tell X against Y, if the sheet had true corners; only its diagonals say whether it has.",
  cautions: [
    "under power",
    { sentence: "If the carriage is pushed by hand, pull the plug first. The pin is sharp: look from beside it." },
  ],
};
