// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Cutter’s axis to the bed (tram)",
  settles:
    "It shows how far the axis of the cutter leans against the bed, to the side and fore and aft, at five places.",
  minutes: 15,
  stage: "spindle mounted",
  tools: [
    "Dial on a stiff arm in the collet, 100 mm from the axis",
    "Or a stiff wire bent to that radius, and feeler leaves",
    "Flat ring, or thick float glass",
  ],
  steps: [
    "Pull the plug of the router, and clamp the arm with the dial in its collet, the stem down and 100 mm from the axis.",
    "Move X and Y to the first of the five places, and lay the glass there, so that the stem meets no slot or joint.",
    "Bring Z down until the pointer has made half a turn, and leave it there for the whole circle.",
    "Turn the spindle by hand at the collet, not at the arm, always the same way round.",
    "Swing the arm to the right, take the hand off and read; go on to the rear, the left and the front, and read at each.",
    "Read the right again: it comes back within 0.02 mm, or something is loose.",
    "Give the glass half a turn where it lies, and sweep once more; if the reading follows the glass, the glass is out.",
    "Do the other four places in the same way, each from the right round to the front; the first place alone already tells the lean, the others tell whether it changes over the bed.",
    "Without a dial, bend a stiff wire so that its tip stands 100 mm from the axis, nip it up in the collet, and lower Z until a leaf of about 0.50 goes between tip and glass; turn once to see that the tip is clear all round.",
    "Find the gap with leaves at right, rear, left and front, name the leaves as the tool of this run, and enter the gaps as felt.",
  ],
  setUp: "Clamp the arm with the dial in the collet, and bring Z down until the pointer has made half a turn.",
  sign: "With the dial, plus: glass and bed are nearer there, and the axis leans, as it goes up, to the side that reads more. With wire and leaves it is the other way: it leans to the side where the gap is smaller.",
  goesWrong: [
    "The stem drops into a slot, a hole or a joint of the board.",
    "A hand rests on the arm while the dial is read.",
    "The bed is trammed although it will be skimmed: what counts then is the plane in which the machine moves.",
  ],
  typical:
    "Across the circle of 200 mm 0.5–2 mm just built, 0.1 mm once set. With 0.4 mm a 25 mm cutter already leaves ridges that nobody sees.",
  cautions: [
    "hands in",
    { sentence: "The plug of the router lies where you see it: if the router starts, the arm in its collet flies." },
  ],
};
