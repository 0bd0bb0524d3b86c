// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Drag along the travel",
  settles: "It shows whether an axis runs equally easily all along, or binds at one place.",
  minutes: 6,
  stage: "gantry on rails",
  tools: ["Luggage scale with a loop of cord", "Pencil"],
  steps: [
    "Pull the plug and free the drive: belt off, nut off the screw, or motors without current.",
    "Take hose and cables off, or tie them up so that they do not pull.",
    "Hook the scale to the middle of what moves, low down, in line with the axis.",
    "Pull slowly and evenly from the front to the rear, or from the left to the right.",
    "Read the scale in N while it passes each of the five stations, not while it starts.",
    "Pull back, and read the same stations on the way.",
    "Read the first station once more.",
  ],
  sign: "The pull in N; more is more drag.",
  goesWrong: [
    "The first jerk is read in place of the steady pull.",
    "The scale pulls at one end, and the gantry skews and binds.",
    "A motor with its leads joined brakes like a dragging guide.",
  ],
  typical:
    "5–15 N, with less than a third of change along the way. Drag that grows to one end speaks of rails that are not parallel, drag in the middle of a bowed one, drag everywhere of dry blocks or tight wheels.",
  cautions: ["hands in"],
};
