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
    "Pencil FRONT and an arrow for X on the scrap while it is still whole.",
    "Take four pricks with a V tip, set in from each end of the travel by a tenth of it, and read them with a rule; or, where calipers of 300 mm are at hand, 6 mm holes 210 by 190 mm apart.",
    "Run the program in air.",
    "Cut the four marks, coming to each one in plus along X and in plus along Y.",
    "Leave the board fixed, wait until the spindle stands still, pull its plug and blow the marks clean.",
    "Between the near edges of the holes, take the front and the rear side, the left and the right one, and the two diagonals.",
    "Measure the same six lengths between the far edges; pricks are measured once, from point to point.",
    "Measure the first length once more.",
    "Enter every length as read; the size of the hole is taken off for you.",
  ],
  setUp:
    "Fix a flat scrap where the work usually lies, and make its marks anew, coming to each one in plus along X and in plus along Y.",
  sign: "Plus: longer than commanded. A longer diagonal from front left to rear right says that the beam is turned with its right end to the rear.",
  goesWrong: [
    "Once it is loose, an unmarked board no longer shows which side was the front.",
    "A drill has wandered off its place; a small milled hole or a V prick does not.",
    "The rectangle is too small: 1 mm/m shows as 0.14 mm between the diagonals of a 100 mm square, and as 0.57 mm at 400 mm.",
  ],
  typical: "Between the diagonals of a 400 mm square 0.5–2.5 mm just built, 0.2 mm once set.",
  cautions: ["cutting"],
};
