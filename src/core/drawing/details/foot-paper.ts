import { line, outline, rectangle, wayArrow } from "../lines.ts";
import type { Detail } from "./detail.ts";
import { bedSection, label, named } from "./shop-tools.ts";

/** A strip of paper, or a leaf, under a foot; the frame is pushed down at its corners. */
export function footPaper(): Detail {
  const body = [
    bedSection(16, 304, 184),
    outline("wide", rectangle(16, 66, 214, 118), "solid"),
    line("thin", [16, 78], [214, 78]),
    outline("wide", rectangle(150, 118, 166, 150), "solid"),
    outline("wide", rectangle(136, 150, 180, 178), "tint"),
    line("act", [150, 181], [272, 181]),
    wayArrow([196, 20], [196, 60]),
    label("push", [206, 36]),
    label("frame", [36, 102]),
    named("foot", [224, 140], [180, 160]),
    label("paper or leaf", [304, 174], "end"),
    label("bench", [30, 178]),
  ].join("");
  return {
    body,
    shows:
      "A strip of paper or a thin leaf is tried under a foot without lifting it, after each corner has been pushed down.",
    plus: null,
  };
}
