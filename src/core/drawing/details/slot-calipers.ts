import { arrowhead, line, outline } from "../lines.ts";
import type { Svg } from "../svg.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { label, plusArrow, secondLabel, sectionOf } from "./shop-tools.ts";

/** Section across a slot, its width by the inner jaws of calipers; a second pass takes what bending had left. */
export function slotCalipers({ check }: DetailInput): Detail {
  const spring = check.id === "spring-pass";
  const plus = { from: [214, 84], to: [262, 84] } as const;
  const body = [
    sectionOf([
      [16, 112],
      [106, 112],
      [106, 180],
      [196, 180],
      [196, 112],
      [304, 112],
      [304, 206],
      [16, 206],
    ]),
    spring
      ? line("limit", [188, 112], [188, 180]) + line("thin", [150, 150], [184, 150]) + label("taken", [146, 154], "end")
      : outline(
          "wide",
          [
            [108, 168],
            [108, 54],
            [124, 40],
            [124, 120],
          ],
          "tint",
        ) +
        outline(
          "wide",
          [
            [194, 168],
            [194, 54],
            [178, 40],
            [178, 120],
          ],
          "tint",
        ),
    spring ? "" : widthMark(),
    plusArrow(plus.from, plus.to),
    secondLabel(spring ? "dash-dotted: wall after the first pass" : "slot cut in one pass", [16, 24]),
  ].join("");
  return {
    body,
    shows: spring
      ? "Section across the cut: what a second pass along the same line takes off the wall. Something taken off reads plus."
      : "Section across a slot cut in one pass, its width between the jaws. A wider slot reads plus.",
    plus,
  };
}

function widthMark(): Svg {
  return [
    line("thin", [106, 108], [106, 78]),
    line("thin", [196, 108], [196, 78]),
    line("thin", [106, 84], [196, 84]),
    arrowhead([196, 84], [106, 84]),
    arrowhead([106, 84], [196, 84]),
    label("width", [151, 78], "middle"),
  ].join("");
}
