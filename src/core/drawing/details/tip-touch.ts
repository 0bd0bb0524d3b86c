import { line, outline, rectangle, wayArrow } from "../lines.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { bedSection, label, plusArrow, spindleNose } from "./shop-tools.ts";

/** The tip comes down on the bed, on a touch plate or on a strip of paper. */
export function tipTouch({ setup }: DetailInput): Detail {
  const paper = setup.instrument?.family === "paper";
  const leaf = setup.instrument?.family === "feeler";
  const plus = { from: [262, 180], to: [262, 128] } as const;
  const between = paper || leaf ? 3 : 12;
  const body = [
    bedSection(16, 304, 190),
    paper || leaf ? line("act", [110, 188], [226, 188]) : outline("wide", rectangle(112, 178, 208, 190), "tint"),
    spindleNose([160, 190 - between], 140),
    wayArrow([92, 70], [92, 122]),
    plusArrow(plus.from, plus.to),
    label("down", [84, 100], "end"),
    label(paper ? "paper" : leaf ? "leaf" : "touch plate", [104, 172], "end"),
    label("higher", [276, 150]),
  ].join("");
  return {
    body,
    shows: `The tip comes down until it ${paper ? "holds the paper" : leaf ? "holds the leaf" : "touches the plate"}; the commanded height is read. A touch that comes higher reads plus.`,
    plus,
  };
}
