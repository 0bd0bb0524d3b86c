// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Gaps at the front stops",
  settles:
    "On a machine with a moving gantry it shows how far the beam stands askew of its two front stops when no drive holds it.",
  minutes: 6,
  stage: "gantry on rails",
  tools: ["Feeler leaves"],
  steps: [
    "Pull the plug and free both drives, so that each side of the gantry rolls on its own: belts slack, or motors without current.",
    "Park the carriage in the middle of the beam.",
    "Wipe both stops and the faces that meet them.",
    "Lay one finger on the middle of the beam, push the gantry to the front until it meets a stop, and let go.",
    "Find the leaf that goes between gantry and stop at the left, then at the right, touching nothing else.",
    "Enter both gaps as felt; where the thinnest leaf does not go, enter that.",
    "Pull the gantry back by 50 mm, push it to the stops again and read the next pair, three pairs in all.",
    "On a screw machine, turn both screws by hand until the first side just holds a 0.10 leaf, and find the gap at the other side.",
  ],
  sign: "The reading is the right gap less the left gap. Plus: the right end of the beam stands further to the rear of its stop.",
  goesWrong: [
    "A hard push, or a push at one end, skews the gantry under the hand.",
    "A chip sits on a stop.",
    "A drive still holds one side.",
    "The stops are taken as true, though they are no squarer than the front crosspiece that carries them.",
  ],
  typical:
    "Just built 0.3–2 mm; once set 0.1 mm, with the three pairs alike within 0.1 mm. Pairs that differ by more than 0.3 mm speak of loose wheels: see to those before anything else.",
  cautions: ["hands in", { sentence: "The gap between gantry and stop pinches: only leaves go in there, no fingers." }],
};
