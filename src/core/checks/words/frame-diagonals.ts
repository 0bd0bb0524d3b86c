// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Diagonals of the frame",
  settles:
    "On a machine with a moving gantry it shows whether one rail sits further to the rear than the other, so that frame and stops form a rhomb.",
  minutes: 5,
  stage: "bare frame",
  tools: [
    "Tape, or two pinch rods: thin sticks with sharpened outer ends, laid side by side and held by two small clamps",
    "Pencil or scriber",
  ],
  steps: [
    "Set the frame down on its own feet and push down on every corner; pack the foot that lifts until nothing rocks.",
    "Mark one and the same feature on all four rail ends, such as the upper outer corner of the profile.",
    "Lay the 100 mm line of the tape on the front left mark and leave the hook unused, because a hook has slack.",
    "Pull the tape tight to the rear right mark, always with the same pull, and read it.",
    "Do the same from front right to rear left, again from the 100 mm line.",
    "Take both diagonals a second time; if either has changed by more than half a millimetre, start again.",
    "Enter the two lengths just as the tape shows them: the 100 mm stands in both and drops out.",
    "With pinch rods, spread them from front left to rear right, nip the clamps up, and carry them to the other diagonal: what they are too long there is plus, what they are too short is minus.",
  ],
  sign: "Plus: the diagonal to the rear right is the longer one, so the right rail sits further to the rear than the left.",
  goesWrong: [
    "The hook of the tape is used, and its play comes in.",
    "The marks are not on the same feature at every corner.",
    "Two equal diagonals are taken for a rectangle; a frame that is wider at one end has them as well, and only the spacing of the rails shows that.",
  ],
  typical:
    "Just screwed together 1–4 mm, set with care 0.5 mm. Less is not worth the time: the diagonals place the end stops, not the path of the cutter.",
  cautions: [
    {
      sentence: "The frame is lifted by two people, and no finger is under it when it comes down.",
      inHand: "Two people lift, no finger below.",
    },
  ],
};
