// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Spacing of the rails",
  settles:
    "It shows whether the two rails run apart, run together or bow on their way to the rear, which makes the axis bind.",
  minutes: 8,
  stage: "bare frame",
  tools: ["Stiff straight stick, cut to length", "Feeler leaves", "Pencil", "Tape, if there is no stick"],
  steps: [
    "Cut the stick half a millimetre to one millimetre shorter than the way between the two guiding faces, and round its ends slightly.",
    "Mark three stations along each rail: front, middle, rear.",
    "If gantry or table is on the rails already, move it to the end where you are not reading.",
    "Start at the front: press one end of the stick firmly to the left rail, just where wheels or blocks touch it.",
    "Find out with leaves what is missing at its right end, without forcing them in.",
    "Swing the right end a little up and down, then to the front and to the rear: the smallest gap counts.",
    "Note two stacks: the thickest that goes, and the thinnest that does not go.",
    "Do the middle and the rear in the same way, the same end of the stick always to the left.",
    "Read the front station once more.",
    "With a tape alone, read from one guiding face to the other at each station; it shows 2 mm of toe, not half a millimetre.",
  ],
  sign: "Plus: the rails stand further apart than nominal at that station. The length of the stick drops out, so it is the change from station to station that counts.",
  goesWrong: [
    "The outside of the profile is measured in place of the face that guides.",
    "The stick lies askew between the rails, and the gap comes out too big.",
    "Leaves are wedged in and push the rails apart.",
  ],
  typical:
    "Widest less narrowest 0.5–2 mm just built; once set 0.05–0.1 mm if it runs on guide blocks, 0.2 mm if on wheels. If the middle alone is wide or narrow, a rail is bowed; if the two ends differ, the rails are not parallel.",
  cautions: ["hands in"],
};
