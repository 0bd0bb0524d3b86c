// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Push and release at the collet",
  settles: "It shows how far the tool gives under a push, and how far it stays away when the push is gone.",
  minutes: 4,
  stage: "spindle mounted",
  tools: [
    "Luggage scale with a loop of cord",
    "Dial with a holder that stands on the bed; without one, a heavy block and feeler leaves",
  ],
  steps: [
    "Pull the plug of the router, and lay a loop of cord round its nose.",
    "Let the drives hold the axes; before they have power, hold the belt or the screw of each axis, not the carriage.",
    "Set the dial against the nose in line with the push, and zero it.",
    "Pull with 20 N, which is the weight of two litres of water, and read the dial under load.",
    "Let go slowly, and read what stays.",
    "Do the same the other way, and keep the larger of the two.",
    "Without a dial, push a heavy block against the nose until it just touches, pull away from it, and feel the gap that opens with leaves, under load and after release.",
    "Do so along X to left and right, along Y to front and rear, along Z up and down: two numbers for each axis, six in all.",
    "Repeat the first pull.",
  ],
  sign: "Two numbers without sign for each axis, the larger of both ways: what the nose yields while you pull, and what of it is left after you have let go. The first makes the stiffness in N/mm, the second the rock in mm.",
  goesWrong: [
    "The holder of the dial gives, and its bending counts as the machine's.",
    "The pull is not in line with the dial.",
    "Letting go with a jerk throws the tool to another place.",
  ],
  typical:
    "20–60 N/mm is usual for a light machine with belts, 150 N/mm and up for a stiff one with screws. Rock under 0.03 mm is good; all of it widens the uncertainty of what is read at the tip.",
  cautions: [
    {
      sentence:
        "The plug of the router is out and there is no cutter. The drives may hold, but nobody starts a move while a hand is at the nose.",
      inHand: "Router's plug out, no cutter.",
    },
  ],
};
