// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Travel in Z along a square",
  settles:
    "It shows whether the slide carries the tool straight up from the bed, or to one side, or to the front or rear as it rises.",
  minutes: 12,
  stage: "slide mounted",
  tools: [
    "Square with a blade longer than the Z travel",
    "Dial or test indicator with a holder",
    "Flat plate",
    "Clamp or weight",
  ],
  steps: [
    "Put the square on the plate, blade up, and hold its foot down with a clamp or a weight.",
    "Fix the dial to the spindle or the slide; for the side reading point the stem to the right, for the fore reading to the rear.",
    "Set the square so that the stem presses on the outer edge of its blade, low down.",
    "Make sure with a fingertip that the number grows as the stem goes in; then zero.",
    "Move the Z axis up to each station, never back down in between, and read.",
    "Lower past the first station, come up to it again, and read it once more.",
    "Turn square and stem half round, so that the same edge is touched from the other side; state which way the stem points, and read the whole run again.",
    "Do the other direction, side or fore, in the same way.",
  ],
  setUp: "Stand the square on its plate under a clamp or a weight, the stem of the dial on its blade.",
  sign: "Stem to the right, a number that grows on the way up: the slide carries the tool to the right. Stem to the rear: to the rear. With the stem the other way round, growing means to the left or to the front.",
  goesWrong: [
    "The collet with the dial in it turns between two stations.",
    "The stem points the other way, and that is not stated.",
    "Half of the travel is used although the square is long enough for all of it.",
  ],
  typical: "Over 60 mm of travel 0.1–0.3 mm just built, that is 2–5 mm/m; once set 0.5 mm/m.",
  cautions: [
    "under power",
    { sentence: "The plug of the router stays out as long as a dial sits in its collet." },
    { sentence: "Try the whole stroke slowly first, and watch that nothing strikes the square at its upper end." },
  ],
};
