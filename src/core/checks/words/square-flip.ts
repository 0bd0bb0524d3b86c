// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Square against itself",
  settles: "It shows how far the square itself is out, before it is held against the machine.",
  minutes: 5,
  stage: "bare frame",
  tools: ["The square", "Board with one straight edge", "Sharp knife", "Loupe with a scale"],
  steps: [
    "Plane or choose an edge of the board that is straight: hold the square's blade to it against the light.",
    "Press the stock against that edge, to the left of the blade, and cut a fine line along the blade over 100 mm at the least.",
    "Turn the square over, so that the stock lies to the right of the blade, and bring the same edge of the blade to the foot of the first line.",
    "Cut a second line from the same point.",
    "Read through the loupe, 100 mm up from the edge, how far the two lines stand apart.",
    "Enter the whole distance; it is halved for you.",
    "Cut one more pair beside the first, and compare.",
  ],
  sign: "Plus: the square is wider than 90°, and each line leans away from the side on which the stock lay when it was cut.",
  goesWrong: [
    "The edge of the board is hollow or round.",
    "The knife leans over or follows the grain.",
    "The two lines do not begin at one point.",
    "Another edge of the blade is used later on the machine.",
  ],
  typical: "A workshop square shows 0.02–0.06 mm between the lines at 100 mm, a cheap one up to 0.4 mm.",
  cautions: [
    {
      sentence: "The knife moves away from the hand that holds the square.",
      inHand: "The knife moves away from the hand.",
    },
  ],
};
