// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Line across spindle and mount",
  settles: "It shows whether the router slips in its mount, or the mount on the slide.",
  minutes: 2,
  stage: "spindle mounted",
  tools: ["Pencil or fine felt pen"],
  steps: [
    "Pull the plug of the router.",
    "Draw one stroke across the router's body and its mount, and one across mount and slide.",
    "After the cut, pull the plug again and look whether every stroke still runs straight through.",
    "Where one is broken, clean both faces, close the clamp evenly, and draw the stroke afresh.",
    "After a slip, set the zero of Z and read the tram again: both went with it.",
  ],
  sign: "Yes or no: every stroke runs through unbroken.",
  goesWrong: [
    "One screw of the clamp does all the work, and the body sits askew.",
    "The clamp is drawn until a bearing of the router feels it.",
    "The stroke is on the paint of a cover that turns by itself.",
  ],
  typical: "A sound mount never moves. One that slips shows as a cut that goes deeper and deeper.",
  cautions: ["hands in"],
};
