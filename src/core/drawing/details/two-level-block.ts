import { optionOf } from "../../checks/check.ts";
import { line, outline, rectangle } from "../lines.ts";
import { stationRing } from "../marks.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { bedSection, label, named, plusArrow, secondLabel, spindleNose } from "./shop-tools.ts";

/** A block on the bed: a mark pricked on its top, one on the bed beside it, both measured from its face. */
export function twoLevelBlock({ check, setup, stations }: DetailInput): Detail {
  const turned = optionOf(check, setup, "block") !== "as first";
  const plus = { from: [176, 56], to: [222, 56] } as const;
  const body = [
    bedSection(16, 304, 190),
    outline("wide", rectangle(60, 116, 190, 190), "tint"),
    spindleNose([140, 116], 96, "wide", 22),
    line("limit", [140, 118], [140, 188]),
    line("extra", [136, 116], [144, 116]),
    line("thin", [60, 112], [60, 86]),
    line("thin", [60, 94], [132, 94]),
    plusArrow(plus.from, plus.to),
    label(turned ? "block, half round" : "block", [70, 176]),
    named("bed mark", [214, 172], [143, 189]),
    label("top mark", [64, 108]),
    ...stations.map(({ number, state }, i) => stationRing([252 + 26 * i, 110], number, state)),
    label("side, fore", [252 - 12, 136]),
    secondLabel("left or front", [16, 20]),
    secondLabel("right or rear", [304, 20], "end"),
  ].join("");
  return {
    body,
    shows: `The same place marked on the bed and on the block's top${turned ? ", the block turned half round" : ""}; both are measured from the block's face. A top mark further in plus reads plus.`,
    plus,
  };
}
