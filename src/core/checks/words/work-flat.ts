// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Work lying flat",
  settles: "It shows whether the work lies on the bed everywhere, before a depth is blamed on the machine.",
  minutes: 3,
  stage: "cutting",
  tools: ["Feeler leaf or a strip of paper", "Dial with a holder, if there is one"],
  steps: [
    "Pull the plug of the router, and fix the work as for the cut.",
    "Try a 0.10 leaf under every edge that no clamp holds.",
    "Push down with the thumb between the clamps and in the middle, and feel for give.",
    "With a dial on the nose and its stem on the work, press with the thumb beside it: the dial stands still.",
    "Where the leaf goes or the dial moves, add clamps, tape or battens, or lay a flat board beneath.",
    "Take dial and leaf away, and try the edges once more.",
  ],
  sign: "Yes or no: no leaf goes under, and no thumb moves the work.",
  goesWrong: [
    "A clamp pulls one edge down and lifts the other.",
    "Chips lie under the work.",
    "A thin sheet is flat now and rises as soon as it is cut through.",
  ],
  typical: "A sheet straight from the store stands off by 0.5–3 mm in places. Well held it takes no leaf of 0.10.",
  cautions: ["hands in", { sentence: "Dial, leaf and hands are away before the plug goes back in." }],
};
