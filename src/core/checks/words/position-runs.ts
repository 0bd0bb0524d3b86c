// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Positions run both ways, five times",
  settles: "It shows, along the lines of ISO 230-2, where an axis stops at each target and how well it does so again.",
  minutes: 40,
  stage: "powered",
  tools: ["Dial and blocks of known length", "Or a scale fixed along the axis"],
  steps: [
    "Choose at least five targets over the whole travel, at uneven distances from each other.",
    "Write a program that goes to each target in plus and then to each in minus, with the same overshoot every time, and that waits long enough to read.",
    "Warm the axis up with ten trips over its whole travel.",
    "Set the zero at the first target, arriving in plus, and do not touch it again.",
    "Go through the targets in plus, and note at each how far the axis stands from where it was told to be.",
    "Go through them in minus, each passed by and approached from its far side.",
    "Repeat both ways until there are five runs of each.",
    "Come to the first target in plus once more, and compare.",
  ],
  sign: "Plus: the axis stands beyond the target, on its plus side.",
  goesWrong: [
    "The zero is set anew between two runs.",
    "The overshoot is left out, and both ways are read from one side.",
    "Even distances hide a wave that has the pitch of screw or pulley.",
  ],
  typical:
    "An axis with a belt comes back within ±0.05–0.15 mm, one with a screw within ±0.01–0.04 mm. It earns its time when a machine is in dispute or many are built alike; a first machine gains more from lost motion and length of travel.",
  cautions: [
    "under power",
    { sentence: "The axis moves by itself while the program runs: read from where you stand, without leaning in." },
  ],
};
