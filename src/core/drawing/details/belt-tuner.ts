import { arrowhead, circle, line, outline, rectangle } from "../lines.ts";
import type { Detail } from "./detail.ts";
import { label, named, secondLabel } from "./shop-tools.ts";

/** The longest free span of a belt, plucked in its middle, a tuner close by. */
export function beltTuner(): Detail {
  const body = [
    circle("wide", [56, 104], 26, "solid"),
    circle("wide", [56, 104], 5),
    circle("wide", [264, 104], 26, "solid"),
    circle("wide", [264, 104], 5),
    line("wide", [56, 75], [264, 75]),
    line("wide", [56, 133], [264, 133]),
    line("limit", [56, 75], [160, 60], [264, 75]),
    line("limit", [56, 75], [160, 90], [264, 75]),
    outline("wide", rectangle(138, 16, 182, 48), "tint"),
    line("thin", [56, 138], [56, 176]),
    line("thin", [264, 138], [264, 176]),
    line("thin", [56, 170], [264, 170]),
    arrowhead([264, 170], [56, 170]),
    arrowhead([56, 170], [264, 170]),
    label("Hz", [160, 37], "middle"),
    label("free span", [160, 165], "middle"),
    named("tuner", [200, 28], [182, 32]),
    secondLabel("pluck in the middle", [160, 112], "middle"),
  ].join("");
  return {
    body,
    shows:
      "The longest free span of the belt is plucked in its middle like a string; a tuner close by shows the pitch.",
    plus: null,
  };
}
