import { line, outline, rectangle } from "../lines.ts";
import { frontOfMachine } from "../marks.ts";
import type { Detail } from "./detail.ts";
import { label, leavesAcross, plusArrow } from "./shop-tools.ts";

/** The gantry against its front stops, from above: the gap at each side. */
export function gantryStops(): Detail {
  const plus = { from: [300, 156], to: [300, 104] } as const;
  const body = [
    outline("thin", rectangle(48, 26, 68, 186)),
    outline("thin", rectangle(252, 26, 272, 186)),
    outline(
      "wide",
      [
        [58, 110],
        [262, 88],
        [262, 66],
        [58, 88],
      ],
      "solid",
    ),
    outline(
      "wide",
      [
        [40, 136],
        [56, 134],
        [56, 70],
        [40, 72],
      ],
      "solid",
    ),
    outline(
      "wide",
      [
        [264, 118],
        [280, 116],
        [280, 52],
        [264, 54],
      ],
      "solid",
    ),
    outline("wide", rectangle(38, 150, 60, 172), "tint"),
    outline("wide", rectangle(262, 150, 284, 172), "tint"),
    leavesAcross(30, 78, 136, 150),
    leavesAcross(242, 290, 118, 150),
    plusArrow(plus.from, plus.to),
    label("left gap", [84, 148]),
    label("right gap", [236, 138], "end"),
    label("stop", [74, 168]),
    label("stop", [246, 168], "end"),
    label("gantry", [110, 96], "middle"),
    frontOfMachine([160, 190]),
    line("centre", [160, 40], [160, 128]),
  ].join("");
  return {
    body,
    shows:
      "From above: the gantry is pushed against its front stops, leaves at the left and at the right. A right end further to the rear reads plus.",
    plus,
  };
}
