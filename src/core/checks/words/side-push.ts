// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Push at one end of the gantry",
  settles: "It shows how far the gantry racks when only one of its ends is pushed, and how far it stays racked.",
  minutes: 2,
  stage: "gantry on rails",
  tools: [
    "Luggage scale with a loop of cord",
    "Dial with a holder that stands on the bed or the frame; without one, a heavy block and feeler leaves",
  ],
  steps: [
    "Move the Y axis to the middle, and let the drives hold; without power, hold belt or screw at both sides.",
    "Set the dial to the right end of the beam, stem along Y, and zero it.",
    "Pull the left end to the rear with 20 N, and read the dial under load.",
    "Let go slowly, and read what stays.",
    "Pull the left end to the front, and read both again.",
    "Without a dial, push a heavy block against the right end until it just touches, and feel the gap that opens with leaves, under load and after release.",
    "Change sides: dial at the left end, pull at the right end, both ways as before.",
    "Of the four pulls, enter the largest that was read under load and the largest that stayed, in mm; over the distance of the rails they become mm/m.",
    "Repeat the first pull.",
    "Where the table moves, pull at one front corner of the table and read at the other.",
  ],
  sign: "Two numbers without sign, each the largest of all pulls: how far the end that is not pulled moves while you pull at the other one, and what is left of it afterwards.",
  goesWrong: [
    "The pull is not along Y, and the beam is lifted.",
    "One side is held and the other is free.",
    "Racking is answered with screws of the frame; squaring the frame does not cure it.",
  ],
  typical:
    "Under 0.1 mm/m that stays is good; from 0.3 mm/m on it scatters every reading of squareness. Wheels, belts, side plates and a short wheelbase are the places to look.",
  cautions: [
    {
      sentence:
        "No cutter in the collet and the plug of the router out. The drives may hold, but nobody starts a move while hands are at the beam.",
      inHand: "Router's plug out, no cutter.",
    },
  ],
};
