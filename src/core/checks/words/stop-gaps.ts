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
    "Bring the carriage half way along the beam.",
    "Wipe both stops and the faces that meet them.",
    "Lay one finger on the middle of the beam, push the gantry to the front until it meets a stop, and let go.",
    "Feel with leaves how far it stands off the left stop and off the right one, touching nothing else.",
    "Enter both gaps as felt; where the thinnest leaf does not go, enter that.",
    "Pull the gantry back by 50 mm, push it to the stops again and read the next pair, three pairs in all.",
    "Where screws drive the gantry, bring it forward by turning both of them by hand; as soon as one stop holds a leaf of 0.10, feel the other one.",
  ],
  sign: "What counts is the right gap less the left one. Plus: at the right the gantry stands off more, its right end being to the rear.",
  goesWrong: [
    "Too strong a push, or one away from the middle, turns the gantry.",
    "Dirt keeps the gantry off one stop.",
    "A drive still holds one side.",
    "The stops are taken as true, though they are no squarer than the front crosspiece that carries them.",
  ],
  typical:
    "Just built 0.3–2 mm; once set 0.1 mm, and no pair then strays by more than 0.1 mm from another. Where the pairs disagree by over 0.3 mm, tighten loose wheels before anything else.",
  cautions: ["hands in", { sentence: "The gap between gantry and stop pinches: only leaves go in there, no fingers." }],
};
