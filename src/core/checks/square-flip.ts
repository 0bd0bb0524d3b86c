import { scale } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, optionOf, type Setup } from "./check.ts";
import { squareUnknown } from "./square.ts";
import { words } from "./words/square-flip.ts";

/** 2·square·L/100: gap between two knife lines drawn with the square lying either way, L up the blade; + when wider. */
export const squareFlip: GeometricCheck = {
  id: "square-flip",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  bothWays: true,
  instruments: ["loupe", "line by eye", "rule", "feeler"],
  roles: ["square"],
  lastingError: "cancels",
  atTip: false,
  options: [
    {
      key: "lengthMm",
      question: "How far up the blade is the gap read?",
      number: { unit: "mm", from: 30, to: 600 },
      usual: 100,
    },
  ],
  stations: (setup) => [{ key: "gap", words: `gap of the two lines, ${lengthOf(setup)} up the blade`, at: [0, 0, 0] }],
  unknowns: () => [squareUnknown],
  predict: (_, __, setup, unknown) => scale((2 * lengthOf(setup)) / 100, unknown("square")),
};

function lengthOf(setup: Setup): number {
  return Number(optionOf(squareFlip, setup, "lengthMm"));
}
