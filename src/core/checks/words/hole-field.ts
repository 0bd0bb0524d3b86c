// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Field of nine holes",
  settles: "It shows whether lengths and corners come out alike all over the bed or change from place to place.",
  minutes: 40,
  stage: "cutting",
  tools: ["Calipers that span two pitches", "Flat scrap board as large as the field", "Pencil"],
  steps: [
    "Spread a single flat sheet over all of the bed that works, and fix it in the middle as well as at its edges.",
    "Pencil FRONT and an arrow for X on the sheet.",
    "Choose a pitch of at most 140 mm, so that the calipers span two pitches.",
    "Run the program in air, then cut three rows of three small holes, all approached from the same sides.",
    "Write a number at each row and each column.",
    "Wait until the spindle stands still, and pull its plug.",
    "Measure the twelve lengths that the drawing shows, each between near edges and in one piece.",
    "Measure three of them a second time, as a test of your own hand.",
    "Measure the first length once more.",
  ],
  sign: "Plus: longer than commanded.",
  goesWrong: [
    "Short lengths are added up to a long one, and what each is out by adds up too.",
    "Rows and columns get mixed up.",
    "The middle of the sheet lifts while it is cut.",
    "A tape is used: below 1.2 mm it settles nothing here.",
  ],
  typical:
    "Lengths that should be alike differ by 0.3–1 mm just after building, by 0.1 mm once set. If the rows turn more and more towards the rear, the beam changes its skew along Y.",
  cautions: ["cutting"],
};
