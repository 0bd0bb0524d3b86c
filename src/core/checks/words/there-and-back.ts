// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "There and back twenty times",
  settles: "It shows whether an axis loses steps, or a pulley slips, when it moves at working speed.",
  minutes: 2,
  stage: "powered",
  tools: ["Dial with a holder, or a pencil mark and a loupe"],
  steps: [
    "Set the dial to the nose in line with the axis, on the plus side, so that a move in plus pushes its stem in; or make a mark under a pin.",
    "Come to a place in plus, and zero there.",
    "Write a program with twenty trips over most of the travel, at the speed of the work, that never touches the dial in between.",
    "Run it, and come back to the place in plus.",
    "Read how far the nose stands from where it began.",
    "If it is more than the dial scatters, run twenty more: a slip that doubles grows with the trips.",
    "Do each axis, Z with the weight of the router on it.",
    "Do it once with hose and cables on as for work.",
  ],
  sign: "Plus: the nose now stands further in plus. The reading is that after twenty trips.",
  goesWrong: [
    "The trips are slower than the work, and nothing slips.",
    "The last move comes from the other side, and play is read.",
    "The dial is struck on the way back.",
  ],
  typical:
    "Nothing, within 0.02 mm, however many trips there are. A stepping motor loses four full steps at a time: about 0.8 mm on a belt, 0.1–0.2 mm on a screw.",
  cautions: [
    "under power",
    { sentence: "The program runs by itself: everybody is out of reach and one hand is at the stop." },
  ],
};
