// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Rough scale",
  settles: "It shows whether an axis moves about as far as it is told to, or by a wrong factor altogether.",
  minutes: 2,
  stage: "powered",
  tools: ["Steel rule"],
  steps: [
    "Lay the rule along the axis, out of the way of all that moves.",
    "Move some mm in plus, and note where a pointer at the nose stands.",
    "Command 4 mm in plus first, slowly; if it goes 100 mm, the factor is 25.4, and you stop here.",
    "Command 100 mm in plus, slowly, from a place with room for 200 mm and more, in case the factor is wrong.",
    "Read the way it has really gone, to the millimetre.",
    "See that it went the way you meant.",
    "Enter the length read, with a minus if it went the other way.",
    "Do X and Y so, and see with 10 mm that Z goes as far and the right way.",
  ],
  sign: "The reading is the way gone for 100 mm commanded. Within 2 mm of 100: passed. A minus: the axis runs the wrong way.",
  goesWrong: [
    "A wrong factor is cured by trying numbers, when the teeth, the lead or the microsteps could simply be counted.",
    "Inches are commanded and millimetres are meant.",
    "The axis runs into its stop, and the short way is taken for a factor.",
  ],
  typical:
    "100 mm for 100 mm within 1 mm. 50, 80, 125 or 200 mm speak of microsteps, teeth or lead, and 25.4 times too much or too little of inches.",
  cautions: [
    "under power",
    { sentence: "The axis may run much further than it was told to: keep the whole travel clear." },
  ],
};
