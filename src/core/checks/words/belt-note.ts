// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Note of the belts",
  settles: "It shows how tight each belt is, and whether the left and the right one pull alike.",
  minutes: 3,
  stage: "gantry on rails",
  tools: ["Tuner, or a telephone that shows pitch in Hz", "Tape measure", "Or a luggage scale and a rule"],
  steps: [
    "Pull the plug, move the gantry to the front and the carriage to the middle of the beam, and leave both there until every belt is read.",
    "Measure the longest free span of the belt, from where it leaves one pulley or clamp to where it meets the next.",
    "Hold the tuner close to the middle of that span, and pluck the belt there like a string.",
    "Pluck again until the tuner shows the same pitch twice, and enter it in Hz.",
    "Do the same at the other side, on a span of the same length.",
    "Pluck the first belt once more.",
    "Without a tuner, pull the middle of the span aside by a small amount with the luggage scale, the same amount at both sides, and compare the two pulls.",
    "After a belt has been tightened, read the length of travel again.",
  ],
  sign: "Pitch in Hz, a number for each belt; higher is tighter. Tension in N is four times the mass per metre in kg, times the span in m squared, times the pitch squared.",
  goesWrong: [
    "The two spans differ in length, and equal notes then mean unequal tension.",
    "The tuner shows a note twice as high as the belt's own.",
    "The belt lies against something and does not ring.",
  ],
  typical:
    "What the belt's maker states comes first. Left and right belong within a semitone, which is 6 % in pitch and so 12 % in pull. For scale, a belt of 9 g per metre that rings at 60 Hz over half a metre pulls with 32 N.",
  cautions: ["hands in"],
};
