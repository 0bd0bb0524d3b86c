// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "The same cut again, slower",
  settles: "It shows how much of what a cut piece is out by comes from speed and bending and not from geometry.",
  minutes: 20,
  stage: "cutting",
  tools: ["Calipers, or what the first piece was measured with", "A second piece of the same scrap", "The same cutter"],
  steps: [
    "Keep the piece that you measured, marked with FRONT, X and the feed.",
    "Fix a second piece of the same board at the same place.",
    "Set the feed to a third, and change nothing else.",
    "Cut the same program.",
    "Wait until the spindle stands still, and pull its plug.",
    "Measure the same places with the same tool.",
    "Measure the first place once more.",
    "Enter both readings for each place: what has gone is not geometry, what has stayed may be.",
  ],
  sign: "The reading at full feed less the reading at a third of it, each with the sign of its own check.",
  goesWrong: [
    "A fresh cutter or another board comes in together with the lower feed.",
    "So slow a cutter rubs and burns: both pieces are then cut at less depth.",
    "The frame is set anew for something that goes away at low feed.",
  ],
  typical:
    "On light work less than a third goes away. If most of it goes, look at acceleration, belts, feed and cutter, and leave the screws of the frame alone.",
  cautions: ["cutting"],
};
