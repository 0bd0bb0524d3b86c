// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Hose and cables lifted",
  settles: "It shows whether hose or cables pull the tool out of its place.",
  minutes: 4,
  stage: "powered",
  tools: ["The tool of the reading that is in doubt, mostly a dial", "A helper or a cord that holds the hose up"],
  steps: [
    "Choose a station far from where the hose hangs, and come to it in plus with hose and cables on as for work.",
    "Read it, and leave the axes standing.",
    "Lift the hose off the carriage, or hold it up so that it hangs free, and keep the hands off the machine.",
    "Read again.",
    "Hang the hose back, and read the first way once more.",
    "Take the second reading from the first and enter the change; it is held against the limit of the work.",
    "Note with every later run whether hose and cables were on or off.",
  ],
  sign: "The reading with the hose on less the reading with it off.",
  goesWrong: [
    "The helper leans on the beam while holding the hose.",
    "The station lies just where the hose pulls least.",
    "The hose is off for measuring and on for cutting, and nobody notes it.",
  ],
  typical:
    "A hose on a boom moves the tool by less than 0.02 mm, a stiff one on a light beam by 0.1 mm and more. Above a third of the limit a boom, a spring or a longer loop comes first.",
  cautions: ["under power"],
};
