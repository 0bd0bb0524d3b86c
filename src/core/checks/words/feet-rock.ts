// Figures: common practice, no source.
import type { CheckWords } from "../check-words.ts";

export const words: CheckWords = {
  title: "Feet on the bench",
  settles:
    "It shows whether the machine stands on all its feet, or whether frame and bench bend when someone leans on them.",
  minutes: 2,
  stage: "bare frame",
  tools: ["Feeler leaves", "Packing", "Pencil or paint"],
  steps: [
    "Stand the machine where it will work.",
    "Push down on each corner in turn, and watch and listen for a knock.",
    "Try a strip of paper under every foot without lifting it, and pack the foot that is free until it holds the strip as firmly as the others do.",
    "Only then read all four: enter for each foot the thickest leaf that goes, and 0 where not even the thinnest goes.",
    "Draw a line round every foot, so that a later shift shows.",
    "Push down on each corner once more.",
  ],
  sign: "The reading is the leaf that goes under the foot. It is passed when no foot takes 0.10, the thickness of paper.",
  goesWrong: [
    "The machine is packed on one bench and measured on another.",
    "The bench itself is twisted or soft, and the free foot changes with where you stand.",
    "The packing is soft and settles within days.",
  ],
  typical: "A frame fresh on its bench often has one foot free by 0.2–1 mm. Packed, no foot takes a strip of paper.",
  cautions: [
    "hands in",
    { sentence: "The machine is tipped, never lifted by one person, and fingers stay from under the foot." },
  ],
};
