import { line, outline, rectangle } from "../lines.ts";
import type { Detail } from "./detail.ts";
import { bedSection, clearedBreak, label, named, plusArrow, secondLabel, standingSquare } from "./shop-tools.ts";

/** A square before the face of the beam carries its lower edge down to a line on the bed; seen from the right. */
export function beamSquare(): Detail {
  const plus = { from: [44, 166], to: [92, 166] } as const;
  const body = [
    bedSection(16, 304, 190),
    outline("wide", rectangle(152, 40, 236, 116), "solid"),
    line("centre", [194, 30], [194, 126]),
    clearedBreak([146, 40], [242, 40]),
    standingSquare([151, 190], -1, 140, 84),
    line("extra", [142, 187], [142, 193]),
    plusArrow(plus.from, plus.to),
    label("beam", [194, 84], "middle"),
    named("line on the bed", [192, 172], [145, 189]),
    label("square", [62, 128]),
    secondLabel("front", [16, 20]),
    secondLabel("rear", [304, 20], "end"),
  ].join("");
  return {
    body,
    shows:
      "Seen from the right, front at the left: a square in front of the beam's face shows where the face stands over the line. A face behind the line reads plus.",
    plus,
  };
}
