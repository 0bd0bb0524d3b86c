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
    "For height stand it upright on the two packers, which sit at two ninths of its length from either end.",
    "Put the dial in the collet: stem to the rear for a sideways run along X, to the right for one along Y, down for height.",
    "Move from end to end, and tap or pack the straightedge until both ends read nearly alike.",
    "Go back past the first station, come forward on to it, and zero.",
    "Take the stations one by one, without ever stepping back.",
    "Read the first station once more, arriving as before.",
    "Turn the straightedge over, so that the edge you have read looks to the opposite side, turn the stem to meet it, and state that it is turned; for height the stem now comes from beneath.",
    "Make both ends agree as before, and go through all stations again.",
  ],
  sign: "Plus: the stem is pushed in. Stem to the rear or to the right: the tool runs to the rear or to the right there. Stem down: the tool runs low there. Stem up, from below: it runs high.",
  goesWrong: [
    "The edge of a level is taken as straight and never turned over.",
    "A packer stands in the middle and bends the edge up.",
    "The stylus climbs over paint, print or a nick.",
  ],
  typical:
    "Over 600 mm of travel 0.1–0.4 mm just built, 0.05–0.1 mm once set. Do not trust a level from the shop as a straightedge: 0.2 mm of bow is common.",
  cautions: ["under power", { sentence: "The plug of the router stays out as long as a dial sits in its collet." }],
};
