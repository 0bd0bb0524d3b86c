import { optionOf } from "../../checks/check.ts";
import { arrowhead, circle, line, outline, type Point, rectangle } from "../lines.ts";
import type { Svg } from "../svg.ts";
import type { Detail, DetailInput } from "./detail.ts";
import { graduatedRule, label, named, plusArrow } from "./shop-tools.ts";

/** A length between two crossings, two pricks, two holes or two stops, by rule, tape or calipers. */
export function lengthBetween({ check, setup, stations }: DetailInput): Detail {
  const holes =
    check.id === "hole-field" || (check.id === "hole-rectangle" && optionOf(check, setup, "marks") === "holes");
  const plus = { from: [232, 40], to: [282, 40] } as const;
  const [a, b]: readonly Point[] = [
    [64, 104],
    [248, 104],
  ];
  const edges = new Set(stations.map(({ station }) => station.figures?.edge));
  const body = [
    ...(holes
      ? holePair(a, b, edges.has(-1), edges.has(1))
      : [
          crossing(a),
          crossing(b),
          graduatedRule([24, 112], [296, 112], 34),
          label(check.id === "grid-diagonals" ? "crossing" : "mark", [a[0], 70], "middle"),
          label("rule", [160, 166], "middle"),
          line("thin", [a[0], 112], [a[0], 150]),
          line("thin", [b[0], 112], [b[0], 150]),
        ]),
    plusArrow(plus.from, plus.to),
    label("longer", [222, 44], "end"),
  ].join("");
  return {
    body,
    shows: holes
      ? "Two holes from above: calipers between their near edges, or over their far edges. A longer distance reads plus."
      : "Two marks from above with the rule beside them, read at both. A longer distance reads plus.",
    plus,
  };
}

function crossing([x, y]: Point): Svg {
  return (
    line("thin", [x - 18, y], [x + 18, y]) + line("thin", [x, y - 26], [x, y + 8]) + circle("wide", [x, y], 3, "solid")
  );
}

function holePair(a: Point, b: Point, near: boolean, far: boolean): readonly Svg[] {
  const r = 18;
  const span = (x0: number, x1: number, y: number, words: string): Svg =>
    line("thin", [x0, a[1]], [x0, y + 4]) +
    line("thin", [x1, a[1]], [x1, y + 4]) +
    line("wide", [x0, y], [x1, y]) +
    arrowhead([x1, y], [x0, y], "ink") +
    arrowhead([x0, y], [x1, y], "ink") +
    label(words, [(x0 + x1) / 2, y - 5], "middle");
  return [
    outline("thin", rectangle(20, 66, 292, 142)),
    circle("wide", a, r, "solid"),
    circle("wide", b, r, "solid"),
    line("centre", [a[0] - 28, a[1]], [b[0] + 28, b[1]]),
    near ? span(a[0] + r, b[0] - r, 168, "near edges") : "",
    far ? span(a[0] - r, b[0] + r, 198, "far edges") : "",
    near && !far ? named("hole", [84, 44], [a[0] + 6, a[1] - 14]) : "",
  ];
}
