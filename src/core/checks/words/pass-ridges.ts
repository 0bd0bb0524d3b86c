// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Ridges between surfacing passes",
  settles: "It shows which way the axis of the cutter leans against the plane in which the machine moves.",
  minutes: 15,
  stage: "cutting",
  tools: ["Flat cutter of 20–30 mm", "Scrap at least 150 mm square for each place", "Dial or depth gauge", "Pencil"],
  steps: [
    "Screw a scrap down at each of the three places, with the screws sunk deep or outside the cut.",
    "Mark X and FRONT on it.",
    "Run the program in air.",
    "Mill half of the scrap along X and half along Y, 0.5 mm down, stepping over by 0.6 of the cutter's width each time.",
    "Wait until the spindle stands still and pull its plug, but leave the scrap fixed.",
    "Draw a fingernail across the passes, and note on which side of each step the floor is higher.",
    "Draw the dial across the same step, and read its height.",
    "Look at the swirls: arcs that cross both ways mean an upright axis, arcs one way only a leaning one.",
    "Read the first step once more.",
  ],
  sign: "Plus: the next pass, to the rear or to the right, lies higher than the one before. The top of the axis leans that way, and each pass is low along that side. To learn about a lean fore and aft look at the half with passes along X, about a lean to the side at the other half.",
  goesWrong: [
    "Fluff, or the burr of a blunt cutter, is read as a step.",
    "The slide rocks: the steps then come out uneven and different each time.",
  ],
  typical:
    "Moving over by 15 mm, a step of 0.03–0.1 mm just built and 0.01 mm once set. 0.02–0.03 mm can be felt with a fingernail.",
  cautions: [
    "cutting",
    {
      sentence:
        "A large cutter takes small bites, and turns no faster than its maker allows: see first that the router can turn so slowly.",
    },
  ],
};
