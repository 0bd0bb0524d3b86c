// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Travel along a straightedge",
  settles: "It shows how straight the tool moves along X or along Y, to the side or up and down.",
  minutes: 15,
  stage: "powered",
  tools: [
    "Straightedge about as long as the travel",
    "Dial or test indicator in the collet",
    "Two packers of equal height",
    "Small mallet",
  ],
  steps: [
    "For the sideways reading lay the straightedge flat along the axis, weighed down but not bent.",
    "For height stand it upright on the two packers, each two ninths of its length in from an end.",
    "Put the dial in the collet: stem to the rear for a sideways run along X, to the right for one along Y, down for height.",
    "Move from end to end, and tap or pack the straightedge until both ends read nearly alike.",
    "Go back past the first station, come forward on to it, and zero.",
    "Read each station, always moving the same way.",
    "Read the first station once more, arriving as before.",
    "Turn the straightedge over so that the same edge faces the other way, set the stem against it, and state that it is turned; upright, the stem then reaches the edge from below.",
    "Set both ends alike, and read all stations again.",
  ],
  sign: "Plus: the stem is pushed in. Stem to the rear or to the right: the tool runs to the rear or to the right there. Stem down: the tool runs low there. Stem up, from below: it runs high.",
  goesWrong: [
    "The edge of a level is taken as straight and never turned over.",
    "A packer stands in the middle and bends the edge up.",
    "The stylus climbs over paint, print or a nick.",
  ],
  typical:
    "Over 600 mm of travel 0.1–0.4 mm just built, 0.05–0.1 mm once set. The edge of a bought level is often bowed by 0.2 mm.",
  cautions: ["under power", { sentence: "The plug of the router stays out as long as a dial sits in its collet." }],
};
