// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "A line along Y against the motion",
  settles:
    "It shows how far a line drawn from front to rear and the motion in Y run apart; which of the two is out stays open.",
  minutes: 6,
  stage: "spindle mounted",
  tools: ["Straight sharp pin for the collet", "Loupe, with a scale if possible", "Sheet of paper"],
  steps: [
    "Put the pin in the collet, nip it up, and do not turn the spindle again until the run is over.",
    "Move the Y axis to the front, and lower the pin until a sheet of paper just slides under it.",
    "Move the X axis until the point stands on a printed line that runs from front to rear.",
    "Hold X from here on: drive on, or the carriage clamped to the beam.",
    "Send the Y axis to the rear in steps, from station to station.",
    "Look along the line from the front, and read through the loupe how far the point stands beside it.",
    "Return past the front station, come up to it towards the rear again, and read it once more.",
    "Where there is no printed grid, stretch a line of 0.2 mm from front to rear just above the bed, or cut one with a knife along a straightedge into paper that is taped down.",
    "A row of pricks made by this machine will also do to see play or drift, but never by itself to judge a corner.",
  ],
  setUp: "Nip the pin up in the collet, bring its point over a printed line, and hold X.",
  sign: "Plus: seen from the front, the point is right of the line.",
  goesWrong: [
    "The eye looks from the side and not along the line.",
    "A bent pin is turned with the spindle, and its point walks.",
    "X creeps because nothing holds it.",
  ],
  typical:
    "1–4 mm/m with the board as it was first fixed, 0.3 mm/m after it has been shifted. With a loupe a reading is good to 0.1 mm, without one to 0.3 mm.",
  cautions: [
    "under power",
    {
      sentence:
        "If the axis is pushed by hand, pull the plug first. The pin is sharp: keep eyes and hands beside it, not under it.",
    },
  ],
};
