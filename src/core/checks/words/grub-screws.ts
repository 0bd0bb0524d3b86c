// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Grub screws, pulleys and couplings",
  settles:
    "It shows whether every pulley and coupling holds its shaft, so that play and scale of that axis can be believed.",
  minutes: 3,
  stage: "gantry on rails",
  tools: ["Hex keys that fit", "Paint pen", "Lamp"],
  steps: [
    "Pull the plug.",
    "Look at the line of paint that runs from each pulley on to its shaft: broken or shifted means that it has slipped.",
    "Hold the shaft, and twist the pulley to and fro by hand; nothing may click or give.",
    "Try each grub screw with its key, without force.",
    "Where one was loose, turn the shaft until a screw meets its flat, wipe it clean, put on a drop of thread lock of medium strength, and tighten.",
    "Paint a new line from the pulley on to its shaft.",
    "Answer yes for the axis when all of its pulleys and couplings hold; one that slips holds back what is found about play and scale there.",
  ],
  sign: "Yes or no, one for each axis: every pulley and coupling holds its shaft.",
  goesWrong: [
    "Only the screw that is in sight is tried; its partner sits a quarter turn further on.",
    "The screw presses on the round of the shaft beside the flat.",
    "A worn key turns in the socket, and the screw feels tight.",
  ],
  typical: "A loose one shows as a jump of 0.2–2 mm on turning round that comes and goes, while the scale stays right.",
  cautions: ["hands in"],
};
