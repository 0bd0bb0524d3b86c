// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Level carried along",
  settles:
    "It shows how the carriage rolls and pitches on its way along X and along Y, without any bed or square to trust.",
  minutes: 12,
  stage: "gantry on rails",
  tools: ["Level of 0.1 mm/m, or of 0.5 mm/m for a first look", "Tape or wax that keeps it from creeping"],
  steps: [
    "Stand the machine on a stiff bench, every foot bearing, and stand at the same spot yourself at every reading.",
    "Fix the level on a clean flat face of the carriage: along X for the side run, along Y for the fore run.",
    "Do not lift or turn it again until the run is read.",
    "Move the Y axis to the middle and the X axis to the left; wait until the bubble is at rest.",
    "Read how far the bubble stands off centre and towards which end.",
    "Move the X axis to the right, and read at each of the five stations.",
    "Return to the first station, coming from the left, and read it once more.",
    "Move the X axis to the middle, and read five stations along Y from the front to the rear, and the first again.",
    "Where the table moves, the level rides on the carriage for the run along X, and on the table for the run along Y: two runs.",
    "Set the level in the other direction, and do both ways again if you want side and fore.",
  ],
  setUp: "Fix the level to a flat face of the carriage, and leave it there.",
  sign: "Side, plus: the right end of the level is high. Fore, plus: the rear end is high. Only the change along the way counts.",
  goesWrong: [
    "The level is lifted or turned within a run.",
    "A light bench tips as the weight travels, and the bubble shows the bench.",
    "The reading is taken before the bubble has come to rest.",
    "A telephone stands in for the level.",
  ],
  typical:
    "The reading changes by 0.5–2 mm/m over the travel just after building, by 0.2 mm/m once rails and beam are set.",
  cautions: [
    "under power",
    { sentence: "If the axes are pushed by hand, pull the plug first, and push low down at the middle of the beam." },
  ],
};
