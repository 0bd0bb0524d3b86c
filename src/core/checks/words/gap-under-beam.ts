// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Gap under the beam",
  settles: "It shows how the beam lies over the bed from left to right, at the front and at the rear.",
  minutes: 10,
  stage: "gantry on rails",
  tools: ["Block a little lower than the gap, its height measured if you can", "Feeler leaves", "Rag", "Pencil"],
  steps: [
    "Take a block that leaves 0.5–1.5 mm free when it stands under the beam; write DOWN on one face and FRONT on one side.",
    "Wipe everything that will touch: bed, block, leaves, underside of the beam.",
    "The carriage stays in the middle for the whole run, with Z up and held.",
    "Move the Y axis to the front, and stand the block under the beam at the left station, FRONT to the front.",
    "Fill what is left above the block with leaves, at most three in a stack.",
    "Enter two stacks, the thickest that goes and the thinnest that does not go; enter the height of the block with the run if you know it.",
    "Do the middle and the right station with the same face down and the same side to the front.",
    "With the Y axis at the rear, feel left, middle and right once again, below the same parts of the beam.",
    "Move back to the front and read the first station once more.",
  ],
  setUp: "Choose one block, and stand it with the same face down each time.",
  sign: "The reading is what the leaves fill. More means more room between bed and beam at that station.",
  goesWrong: [
    "The block is set down another way round than before.",
    "A bump of the bed or a chip lies under the block.",
    "The wrist rests on the beam and bends it down.",
    "The carriage stands somewhere else than for the first reading.",
  ],
  typical:
    "Between left and right 0.3–1.5 mm just built, 0.1 mm once set. The check sets the beam against the bed: a difference that is the same at the front and at the rear can belong to either.",
  cautions: ["hands in", { sentence: "Hands reach under the beam: Z is up and blocked before they do." }],
};
