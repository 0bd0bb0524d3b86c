// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Marks at two heights",
  settles: "It shows on pricked marks whether the tool comes straight down or shifts sideways on its way.",
  minutes: 20,
  stage: "cutting",
  tools: [
    "Block with square faces, as high as the station states: 50 mm where Z allows it",
    "Two straight battens and screws",
    "Two clamps",
    "Calipers with a depth rod, or a loupe with a scale",
    "Pencil",
  ],
  steps: [
    "Make a corner of the two battens, screwed to the bed, that holds the block at its left and its front face, and write LEFT and FRONT on the block.",
    "Push the block hard into the corner, clamp it twice, and see that everything clears it.",
    "Prick the top of the block at a chosen place, coming to it in plus along X and Y.",
    "Raise Z to the top, and take the block out without moving the battens.",
    "Without the block, come to that X and Y from the same sides as before, and make a prick in the bed.",
    "Wait until the spindle stands still, and pull its plug.",
    "Measure the mark on the bed from the faces of the left and the front batten.",
    "Measure the mark on the block from its left and its front face, at the top.",
    "Measure the first distance once more.",
    "Enter both distances as measured, block and bed, first those to the left face and then those to the front face.",
    "Turn the block half round, mark the faces anew, and do it all again, stating that it is turned: what the block leans by itself drops out.",
  ],
  sign: "Plus, to the side: as Z rises, the tool shifts to the right. Plus, fore: as Z rises, it shifts to the rear.",
  goesWrong: [
    "The block is not hard in its corner, or a chip is in there with it.",
    "The two marks are approached from different sides, and play comes in.",
    "The block is too low to show much: 50 mm of height turn 4 mm/m into only 0.2 mm.",
  ],
  typical: "2–5 mm/m just built, 0.5 mm/m once set.",
  cautions: [
    "cutting",
    { sentence: "A tall block tips: two clamps hold it, and nothing passes over it below the top of Z." },
  ],
};
