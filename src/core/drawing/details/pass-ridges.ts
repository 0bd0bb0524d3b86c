import { line, type Point } from "../lines.ts";
import type { Detail } from "./detail.ts";
import { dialIndicator, label, plusArrow, secondLabel, sectionOf } from "./shop-tools.ts";

/** Section across two passes side by side: the step where they meet. */
export function passRidges(): Detail {
  const floor: Point[] = [
    [16, 136],
    [100, 150],
    [100, 136],
    [196, 152],
    [196, 138],
    [304, 156],
    [304, 200],
    [16, 200],
  ];
  const plus = { from: [292, 118], to: [292, 72] } as const;
  const body = [
    sectionOf(floor),
    dialIndicator([204, 66], [204, 138]),
    line("thin", [148, 150 - 8], [148, 96]),
    plusArrow(plus.from, plus.to),
    label("this pass", [146, 88], "middle"),
    label("next pass", [250, 128], "middle"),
    secondLabel("front or left", [16, 20]),
    secondLabel("rear or right", [304, 20], "end"),
  ].join("");
  return {
    body,
    shows:
      "Section across passes side by side; the dial stands on the floor and is pushed over the step. A next pass that lies higher reads plus.",
    plus,
  };
}
