import { line, outline, rectangle } from "../lines.ts";
import type { Detail } from "./detail.ts";
import { bedSection, clearedBreak, label, leavesAcross, plusArrow } from "./shop-tools.ts";

/** Block on the bed under the beam, leaves in what is left over; seen from the front. */
export function blockGap(): Detail {
  const plus = { from: [284, 96], to: [284, 56] } as const;
  const body = [
    bedSection(16, 304, 184),
    line("wide", [16, 34], [304, 34]),
    line("wide", [16, 96], [252, 96]),
    line("wide", [296, 96], [304, 96]),
    line("centre", [8, 65], [312, 65]),
    clearedBreak([16, 28], [16, 102]),
    clearedBreak([304, 28], [304, 102]),
    outline("wide", rectangle(96, 112, 196, 184), "tint"),
    leavesAcross(76, 244, 96, 112),
    plusArrow(plus.from, plus.to),
    label("beam", [36, 56]),
    label("block", [146, 153], "middle"),
    label("leaves", [238, 132], "end"),
    label("bed", [36, 178]),
  ].join("");
  return {
    body,
    shows:
      "Seen from the front: the block stands on the bed under the beam, and leaves fill the gap over it. A higher beam reads plus.",
    plus,
  };
}
