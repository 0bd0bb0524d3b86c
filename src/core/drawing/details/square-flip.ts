import { optionOf } from "../../checks/check.ts";
import { line, outline, type Point, rectangle } from "../lines.ts";
import { stationRing } from "../marks.ts";
import type { Svg } from "../svg.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { label, secondLabel } from "./shop-tools.ts";

/** Two knife lines from one edge of a board, the square lying either way: they part by twice its error. */
export function squareFlipPicture({ check, setup, stations }: DetailInput): Detail {
  const length = Number(optionOf(check, setup, "lengthMm"));
  const body = [
    outline("wide", rectangle(24, 40, 296, 178), "tint"),
    squareAlong(-1),
    squareAlong(1),
    line("wide", [160, 178], [151, 56]),
    line("wide", [160, 178], [169, 56]),
    line("thin", [151, 52], [151, 20]),
    line("thin", [169, 52], [169, 20]),
    line("thin", [112, 26], [151, 26]),
    line("thin", [169, 26], [186, 26]),
    stationRing([198, 26], stations[0]?.number ?? 1, stations[0]?.state ?? "open"),
    line("thin", [64, 56], [146, 56]),
    line("thin", [70, 56], [70, 178]),
    label(`${length}`, [64, 122], "end"),
    label("gap", [106, 30], "end"),
    label("board", [288, 62], "end"),
    label("square", [252, 214], "middle"),
    label("flipped", [72, 214], "middle"),
    secondLabel("straight edge", [160, 214], "middle"),
  ].join("");
  return {
    body,
    shows: `A board from above: a knife line along the square's blade, the square flipped, and a second line from the same point. The gap is read ${length} mm up the blade. Lines that lean away from the stock that made them read plus: the square is wider than 90 degrees.`,
    plus: null,
  };
}

/** The square, wider than 90°, with its stock on one side of the point from which both lines start. */
function squareAlong(side: 1 | -1): Svg {
  const at = (across: number, down: number): Point => [160 + side * across, 178 - down];
  const kind = side > 0 ? "wide" : "limit";
  return (
    outline(kind, [at(0, 0), at(-9, 122), at(12, 124), at(19, 0)]) +
    outline(kind, [at(0, 0), at(116, 0), at(116, -18), at(0, -18)], side > 0 ? "solid" : "none")
  );
}
