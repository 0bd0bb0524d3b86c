import { optionOf } from "../../checks/check.ts";
import { line } from "../lines.ts";
import { stationRing } from "../marks.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { bedSection, graduatedRule, label, plusArrow, spindleNose } from "./shop-tools.ts";

/** The pointer over a rule at the first stop and at a later one; along Z the rule stands. */
export function travelRule({ check, setup, stations }: DetailInput): Detail {
  const axis = check.options.some(({ key }) => key === "axis") ? String(optionOf(check, setup, "axis")) : "X";
  return axis === "Z" ? upright(stations) : flat(axis, check.id === "gross-scale");
}

function flat(axis: string, coarse: boolean): Detail {
  const plus = { from: [226, 40], to: [276, 40] } as const;
  const body = [
    bedSection(16, 304, 196, 14),
    graduatedRule([28, 172], [292, 172], 24),
    spindleNose([70, 168], 112, "thin", 22),
    spindleNose([222, 168], 112, "wide", 22),
    line("thin", [86, 150], [206, 150]),
    plusArrow(plus.from, plus.to),
    label(coarse ? "100" : "commanded", [146, 144], "middle"),
    label("rule", [258, 166]),
  ].join("");
  return {
    body,
    shows: `Along ${axis}: the point over the rule at the first stop and after the move. A longer way than commanded reads plus.`,
    plus,
  };
}

function upright(stations: DetailInput["stations"]): Detail {
  const plus = { from: [262, 130], to: [262, 84] } as const;
  const heights = stations.map((_, i) => 168 - ((i + 1) * 120) / Math.max(1, stations.length));
  const body = [
    bedSection(16, 304, 196, 14),
    graduatedRule([180, 192], [180, 28], -26),
    spindleNose([116, 182], 120, "wide", 24),
    line("wide", [120, 178], [176, 178]),
    ...heights.map(
      (y, i) => line("thin", [208, y], [222, y]) + stationRing([233, y], stations[i].number, stations[i].state),
    ),
    plusArrow(plus.from, plus.to),
    label("rule", [200, 190]),
  ].join("");
  return {
    body,
    shows:
      "Along Z: a pointer at the nose beside a standing rule, read at each height. A longer way than commanded reads plus.",
    plus,
  };
}
