// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Homing, again and again",
  settles:
    "It shows how well the machine finds the same place after each homing, and with two motors for Y how much its squareness changes.",
  minutes: 12,
  stage: "powered",
  tools: ["Dial with a holder that stands on the bed or clamps to it"],
  steps: [
    "Home the machine, and move the X axis to the right, nearly to the end of its travel, if the gantry has a motor on either side; elsewhere any place on the homed axis will do.",
    "Fix the dial to the bed on the plus side of the spindle nose, in line with Y on such a gantry and with the homed axis elsewhere, so that a move in plus pushes its stem in.",
    "Come to a place in plus where the dial is half pressed in; note that place and zero the dial.",
    "Move well away, home, and come back to the noted place by the same last move in plus.",
    "Read the dial, and leave its zero alone.",
    "Do that five times.",
    "For two of the five, switch the drives off and on again before homing.",
    "State for each reading whether the power had been off.",
  ],
  sign: "Plus: after this homing the nose stands further in plus than after the first; on a gantry driven from both sides that is its right end.",
  goesWrong: [
    "The last move comes from the other side, and play is read as homing.",
    "The dial is bumped while the machine homes.",
    "The power is never switched off, and what the motors do on waking stays unseen.",
  ],
  typical:
    "0.02–0.03 mm with a stiff bracket and a slow second touch, 0.1 mm with a lever switch on a soft bracket. When its power comes on, a motor can pull into place by as much as two full steps: 0.1 mm with a screw, 0.4–0.6 mm with a belt. That is the most it does, not the usual.",
  cautions: [
    "under power",
    { sentence: "Homing drives an axis until a switch stops it: be ready for a switch that does not." },
  ],
};
