// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Sides and diagonals of the printed grid",
  settles:
    "It shows how far the grid on the bed is out in its own lengths and corners; about the machine it says nothing.",
  minutes: 8,
  stage: "bare frame",
  tools: ["Steel rule, or a tape where the rule is too short", "Loupe"],
  steps: [
    "Clear the bed, and move gantry and carriage out of the way.",
    "Find four crossings that make a rectangle as big as the rule allows, its diagonals included.",
    "Tip the rule on edge, which brings its graduation down to the paper.",
    "Set a full graduation on the first crossing, not the end of the rule.",
    "Read at the far crossing with the eye straight above it, and take off the graduation you began with.",
    "Measure two sides along X, two sides along Y and both diagonals, all with this one rule.",
    "Enter every length as measured; the printed length stands beside it.",
    "Measure the first side once more.",
    "Where the bed has no print, four crosses cut with a knife into paper that is taped down do as well.",
  ],
  sign: "Plus: longer than printed. Should the diagonal to the rear left be the longer one, the Y lines run off to the left on their way to the rear.",
  goesWrong: [
    "The worn end of a rule is taken as its zero.",
    "The eye looks at a slant past the graduation.",
    "Sides and diagonals are measured with two rules that do not agree.",
  ],
  typical:
    "A print is commonly long or short by 0.5–2 mm/m, and its corners are out by as much as 1 mm/m. A board under them swells and shrinks as much within a year.",
  cautions: ["hands in"],
};
