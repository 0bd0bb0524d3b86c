// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Runout of the spindle",
  settles: "It shows how far a shank in the collet runs out of true, and whether collet or bearings are the cause.",
  minutes: 5,
  stage: "spindle mounted",
  tools: ["Ground pin of the collet's size", "Test indicator with a holder", "Rag and a soft brush"],
  steps: [
    "Pull the plug of the router.",
    "Clean collet, taper and nut, and look for burnt resin and scores.",
    "Insert the pin so that the collet grips it over three quarters of its length or more, clear of the bottom of the bore, and draw the nut as you do for a cut.",
    "Set the indicator on the pin close to the collet.",
    "Turn the spindle by hand through one full turn, and read the largest less the smallest number.",
    "Turn on to where you began: the indicator comes back to its first number.",
    "Read again 25 mm further out on the pin, and note that beside it.",
    "Seat the pin three times more, a quarter turn further on each time, and take both readings at each seating.",
  ],
  sign: "Always plus: the whole swing close to the collet is entered for each seating, not half of it.",
  goesWrong: [
    "The stylus runs on the flutes of a cutter.",
    "The pin stands on the bottom of the bore.",
    "One reading is believed, though the next seating reads otherwise.",
  ],
  typical:
    "At the nose a spindle shows 0.01–0.02 mm, while a trim router shows 0.03–0.10 mm, and 0.03 mm is good for one. If it grows with the distance, the collet is bent or dirty; if it does not, look to the bearings.",
  cautions: [
    "hands in",
    { sentence: "Switched off is not enough here: the plug is out. The lips of a collet are sharp." },
  ],
};
