// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Wheels and guide blocks",
  settles: "It shows whether every wheel carries, none binds, and every guide block runs clean and oiled.",
  minutes: 2,
  stage: "gantry on rails",
  tools: ["Spanner for the eccentric spacers", "Rag", "Oil as the maker of the blocks states"],
  steps: [
    "Pull the plug.",
    "Hold the axis still, and turn each wheel with one finger: it slips on its rail, but only with a firm push.",
    "Where a wheel spins free, turn its eccentric spacer until it just no longer does, and nip up.",
    "Where a wheel is locked, ease the spacer back.",
    "Roll the axis over its whole travel, and feel for a thump from a flat or from grit.",
    "On guide blocks, wipe the rail, look for grit at the seals, and oil as their maker states.",
    "Go round once more after the last one, since one spacer changes its neighbours, and answer for left side, right side, carriage and slide.",
  ],
  sign: "Yes or no, one for each place: every wheel or block there carries and runs.",
  goesWrong: [
    "Wheels are tightened until nothing rattles, and then go flat overnight.",
    "Only the wheels in front are tried.",
    "A wheel is judged where the rail is wide, and binds where it is narrow.",
  ],
  typical:
    "On a fresh machine one or two wheels in eight spin free. After a long stand a soft wheel thumps for some strokes.",
  cautions: [
    "hands in",
    { sentence: "A guide block never leaves its rail without the strip that keeps the balls in." },
  ],
};
