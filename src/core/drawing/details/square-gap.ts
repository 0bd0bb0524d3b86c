import { optionOf } from "../../checks/check.ts";
import { line, outline, type Point, rectangle } from "../lines.ts";
import type { Detail, DetailInput } from "./detail.ts";
import {
  bedSection,
  clearedBreak,
  label,
  leavesUpright,
  plusArrow,
  secondLabel,
  standingSquare,
} from "./shop-tools.ts";

/**
 * A square on the bed against an upright face, leaves at an upper and a lower place. The face leans in the drawing, so
 * that both gaps show; the square stands on the side that the set-up states.
 */
export function squareGap({ check, setup }: DetailInput): Detail {
  const beam = check.id === "beam-upright";
  const fore = beam || optionOf(check, setup, "towards") === "fore";
  const stands = String(optionOf(check, setup, "square"));
  // From the front, left is left; from the right, the front is at the left of the picture.
  const low = stands === "left or in front" || stands === "in front";
  const side = low ? -1 : 1;
  const face = 160 + side * 16;
  const square = face + side * 8;
  const upper: Point = [face - side * 12, 58];
  const lower: Point = [face, 140];
  const bodyEdge = face - side * 76;
  const top: Point = [upper[0] - side * 4, 28];
  const foot: Point = [face + side * 1, 156];
  const plus = { from: [face - side * 40, 44], to: [face - side * 88, 44] } as const;
  const height = Number(optionOf(check, setup, "heightMm"));
  const dimensionAt = face + side * 74;
  const part = beam ? "beam" : optionOf(check, setup, "flank") === "slide" ? "slide" : "spindle";
  const body = [
    bedSection(16, 304, 190),
    outline("wide", [foot, top, [bodyEdge, 28], [bodyEdge, 156]], "solid"),
    beam ? "" : clearedBreak([top[0] + side * 6, 28], [bodyEdge - side * 6, 28]),
    beam ? "" : outline("wide", rectangle(bodyEdge + side * 30, 156, bodyEdge + side * 48, 174), "solid"),
    standingSquare([square, 190], side, 164, 96),
    leavesUpright(Math.min(upper[0], square), Math.max(upper[0], square), 50, 66),
    leavesUpright(Math.min(lower[0], square), Math.max(lower[0], square), 132, 148),
    heightMark(dimensionAt, [square + side * 18, 58], [square + side * 18, 140], height, side),
    plusArrow(plus.from, plus.to),
    label(part, [(face + bodyEdge) / 2 - side * 4, 104], "middle"),
    label("square", [square + side * 56, 185], "middle"),
    label("top gap", [square + side * 22, 46], side < 0 ? "end" : "start"),
    label("bottom gap", [square + side * 22, 160], side < 0 ? "end" : "start"),
    secondLabel(fore ? "front" : "left", [16, 20]),
    secondLabel(fore ? "rear" : "right", [304, 20], "end"),
  ].join("");
  const where = fore ? (low ? "in front of it" : "behind it") : low ? "to its left" : "to its right";
  return {
    body,
    shows: `Seen from ${fore ? "the right, front at the left" : "the front"}: the square stands ${where}; leaves at two heights, ${height} mm apart. A top that leans away from the square reads plus.`,
    plus,
  };
}

function heightMark(x: number, upper: Point, lower: Point, height: number, side: 1 | -1): string {
  return (
    line("thin", upper, [x + side * 4, upper[1]]) +
    line("thin", lower, [x + side * 4, lower[1]]) +
    line("thin", [x, upper[1]], [x, lower[1]]) +
    secondLabel(`${height}`, [x + side * 6, (upper[1] + lower[1]) / 2 + 4], side < 0 ? "end" : "start")
  );
}
