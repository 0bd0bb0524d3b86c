import { optionOf } from "../../checks/check.ts";
import { arrowhead, line, outline, type Point } from "../lines.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { label, plusArrow, secondLabel, sectionOf } from "./shop-tools.ts";

/** Section through the groove and the pointed cutter that made it. */
export function grooveSection({ check, setup }: DetailInput): Detail {
  const angle = Number(optionOf(check, setup, "angle"));
  const half = (Math.min(angle, 110) * Math.PI) / 360;
  const depth = 56;
  const top = 118;
  const open = Math.min(90, depth * Math.tan(half));
  const middle = 150;
  const foot: Point = [middle, top + depth];
  const plus = { from: [middle + open, 96], to: [middle + open + 44, 96] } as const;
  const strip: Point[] = [
    [16, top],
    [middle - open, top],
    foot,
    [middle + open, top],
    [304, top],
    [304, 200],
    [16, 200],
  ];
  const body = [
    sectionOf(strip),
    outline("limit", [
      [middle - open * 1.5, 62],
      [middle + open * 1.5, 62],
      [middle + open * 1.5, foot[1] - depth * 1.5],
      foot,
      [middle - open * 1.5, foot[1] - depth * 1.5],
    ]),
    line("centre", [middle, 40], [middle, 208]),
    line("thin", [middle - open, top - 4], [middle - open, 88]),
    line("thin", [middle + open, top - 4], [middle + open, 88]),
    line("thin", [middle - open, 96], [middle + open, 96]),
    arrowhead([middle + open, 96], [middle - open, 96]),
    plusArrow(plus.from, plus.to),
    label("width", [middle + 6, 90]),
    label(`cutter, ${angle}°`, [16, 56]),
    secondLabel("strip", [22, 112]),
  ].join("");
  return {
    body,
    shows: `Section across the groove that a pointed cutter of ${angle} degrees has cut into the strip. A wider and so deeper groove reads plus.`,
    plus,
  };
}
