// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Line across shank and nut",
  settles: "It shows whether the cutter stays where the collet holds it.",
  minutes: 2,
  stage: "cutting",
  tools: ["Fine felt pen", "Rag"],
  steps: [
    "Pull the plug of the router, and wait until the spindle stands still.",
    "Wipe shank, collet and nut clean of resin and oil, and push the shank in over three quarters of the collet.",
    "Tighten as its maker states, draw a fine line round the shank at the face of the nut, and a stroke along shank and nut.",
    "After the cut, pull the plug again and look: line and face still meet, and the stroke is unbroken.",
    "Where they have moved apart, clean, look for scores, renew the collet if it is worn, and touch off again.",
  ],
  sign: "Yes or no: line and nut still meet.",
  goesWrong: [
    "The line is drawn before the nut is tight.",
    "Oil on the shank lets it climb, however hard the nut is drawn.",
    "The shank is scored, and sits in the same score again.",
  ],
  typical:
    "A sound collet holds to the line. A cutter that climbs goes deeper with every pass, by tenths of a millimetre.",
  cautions: ["cutting", { sentence: "The cutter is sharp and may be hot: hold it in a rag while the nut is turned." }],
};
