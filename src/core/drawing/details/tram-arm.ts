import { arc, line, outline, rectangle } from "../lines.ts";
import type { Detail } from "./detail.ts";
import { bedSection, dialIndicator, label, plusArrow, secondLabel, spindleNose } from "./shop-tools.ts";

/** An arm in the spindle carries a dial round over the bed. */
export function tramArm(): Detail {
  const plus = { from: [284, 184], to: [284, 140] } as const;
  const body = [
    bedSection(16, 304, 190),
    spindleNose([150, 112], 88),
    line("limit", [60, 112], [60, 188]),
    line("wide", [150, 108], [240, 108]),
    outline("wide", rectangle(234, 102, 246, 116), "solid"),
    dialIndicator([240, 134], [240, 190]),
    arc("thin", [150, 108], 90, 180, 187),
    line("thin", [60, 196 - 88], [146, 108]),
    line("thin", [60, 198], [60, 206]),
    line("thin", [240, 198], [240, 206]),
    plusArrow(plus.from, plus.to),
    label("arm, 100 long", [174, 96]),
    label("swung by hand", [16, 66]),
    secondLabel("half round", [68, 176]),
    label("bed", [24, 184]),
  ].join("");
  return {
    body,
    shows:
      "An arm in the spindle carries the dial round; the stem points down to the bed. A bed that is nearer reads plus.",
    plus,
  };
}
