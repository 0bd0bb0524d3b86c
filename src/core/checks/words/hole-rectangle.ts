// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Rectangle of four holes or pricks",
  settles: "It shows on a cut piece how long X and Y come out and how square they stand to each other.",
  minutes: 20,
  stage: "cutting",
  tools: [
    "Calipers that span the diagonal, for holes",
    "Steel rule with a loupe, tape or pinch rods, for pricks",
    "Flat scrap board",
    "Pencil",
  ],
  steps: [
    "Fix a flat scrap where the work usually lies, and see that it does not rock.",
    "Write FRONT and an arrow for X on it before anything is cut.",
    "Choose 6 mm holes, 210 by 190 mm for calipers of 300 mm or 105 by 90 mm for calipers of 150 mm; or four pricks with a V tip, set in from each end of the travel by a tenth of it.",
    "Run the program in air.",
    "Cut the four marks, each approached from the same side in X and from the same side in Y.",
    "Leave the board fixed, wait until the spindle stands still, pull its plug and blow the marks clean.",
    "Measure two sides along X, two along Y and both diagonals between the near edges of the holes.",
    "Measure the same six lengths between the far edges; pricks are measured once, from point to point.",
    "Measure the first length once more.",
    "Enter every length as read; the size of the hole is taken off for you.",
  ],
  sign: "Plus: longer than commanded. If front left to rear right is the longer diagonal, the right end of the beam stands to the rear.",
  goesWrong: [
    "The board is taken up before it is marked, and nobody knows its front.",
    "A drill has wandered off its place; a small milled hole or a V prick does not.",
    "The rectangle is too small: 1 mm/m shows as 0.14 mm between the diagonals of a 100 mm square, and as 0.57 mm at 400 mm.",
  ],
  typical: "Between the diagonals of a 400 mm square 0.5–2.5 mm just built, 0.2 mm once set.",
  cautions: ["cutting"],
};
