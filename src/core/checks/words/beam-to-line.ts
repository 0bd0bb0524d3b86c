// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Beam against a line along X",
  settles: "It shows whether the front face of the beam runs parallel to a line drawn from left to right on the bed.",
  minutes: 6,
  stage: "gantry on rails",
  tools: ["Square", "Loupe with a scale, or a steel rule and a loupe"],
  steps: [
    "Choose one printed line that runs from left to right, and mark on it the left, the middle and the right station.",
    "Put the carriage out of the way of all three stations for the whole run.",
    "Move the Y axis until the front face of the beam stands over the line within 2 mm, and hold Y with a clamp at either side.",
    "Wipe the bed, and stand the square on it in front of the beam.",
    "Slide the square to the rear until its upright edge touches the lower edge of the face.",
    "Read through the loupe how far the foot of the upright edge stands in front of the line or to the rear of it.",
    "Do the other stations with the same square, the same way round, at the same height of the face.",
    "Read the first station once more.",
    "Where there is no print, a taut thin line or a knife line on paper taped to the bed stands in; a row of the machine's own pricks does not, since it shares what the machine has wrong.",
  ],
  setUp: "Bring the front face of the beam over a printed line, and hold Y at both sides.",
  sign: "Plus: the foot of the square is found behind the line, and so is the face. A reading that grows from left to right means that the beam is turned with its right end to the rear.",
  goesWrong: [
    "Under the square there is a chip.",
    "The square meets the face at another height at the other end, and a twisted beam comes in.",
    "A burr or a drop of paint is touched in place of the face.",
  ],
  typical:
    "Between the ends 1–3 mm just built, 0.2 mm once set. What the square is out is the same at both ends and drops out; twist in the beam stays in.",
  cautions: ["hands in"],
};
