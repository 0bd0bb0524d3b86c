import { optionOf } from "../../checks/check.ts";
import { line, outline, rectangle } from "../lines.ts";
import { stationRing } from "../marks.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { label, named, secondLabel } from "./shop-tools.ts";

/** Two knife lines from one edge of a board, the square lying either way: they part by twice its error. */
export function squareFlipPicture({ check, setup, stations }: DetailInput): Detail {
  const length = Number(optionOf(check, setup, "lengthMm"));
  const square = (side: 1 | -1) =>
    outline(side > 0 ? "wide" : "limit", [
      [160, 168],
      [160 + side * 84, 168],
      [160 + side * 84, 184],
      [160 - side * 0, 184],
      [160, 184],
    ]) +
    outline(side > 0 ? "wide" : "limit", [
      [160, 168],
      [160 - side * 0, 168],
      [160 + side * 22, 168],
      [160 + side * 26, 52],
      [160 + side * 4, 52],
    ]);
  const body = [
    outline("wide", rectangle(30, 36, 290, 168), "tint"),
    square(1),
    square(-1),
    line("wide", [160, 168], [164, 52]),
    line("wide", [160, 168], [156, 52]),
    line("thin", [156, 50], [156, 24]),
    line("thin", [164, 50], [164, 24]),
    line("thin", [130, 30], [156, 30]),
    line("thin", [164, 30], [190, 30]),
    stationRing([206, 24], stations[0]?.number ?? 1, stations[0]?.state ?? "open"),
    line("thin", [70, 52], [152, 52]),
    line("thin", [76, 52], [76, 168]),
    label(`${length}`, [70, 114], "end"),
    named("gap of the lines", [20, 22], [128, 30]),
    label("board", [284, 60], "end"),
    secondLabel("straight edge", [38, 200]),
    label("square, and flipped", [302, 204], "end"),
  ].join("");
  return {
    body,
    shows: `A board from above: a knife line along the square's blade, the square flipped, and a second line from the same point. The gap is read ${length} mm up the blade. Lines that lean away from the stock read plus: the square is wider than 90 degrees.`,
    plus: null,
  };
}
