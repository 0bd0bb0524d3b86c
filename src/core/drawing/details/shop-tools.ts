import { type LetteringStyle, lettering, textWidth } from "../lettering.ts";
import { breakLine, circle, hatching, leader, line, outline, type Point, rectangle, wayArrow } from "../lines.ts";
import type { LineKind } from "../stylesheet.ts";
import type { Svg } from "../svg.ts";

/** Bed in section: a wide line on top, hatched beneath. */
export function bedSection(x0: number, x1: number, top: number, thick = 16): Svg {
  return hatching(rectangle(x0, top, x1, top + thick)) + line("wide", [x0, top], [x1, top]);
}

/** A board or a piece of work in section. */
export function sectionOf(points: readonly Point[], kind: LineKind = "wide"): Svg {
  return hatching(points) + outline(kind, points);
}

/** Lower end of a spindle whose tip stands at the place: housing broken off on top, collet, cutter or pin. */
export function spindleNose([x, tip]: Point, height: number, kind: LineKind = "wide", half = 26): Svg {
  const top = tip - height;
  const nose = tip - Math.min(64, height * 0.55);
  return (
    outline(
      kind,
      [
        [x - half, nose],
        [x - half, top],
        [x + half, top],
        [x + half, nose],
        [x + half - 6, nose + 6],
        [x - half + 6, nose + 6],
      ],
      "solid",
    ) +
    outline(kind, rectangle(x - 11, nose + 6, x + 11, nose + 22), "solid") +
    outline(kind, rectangle(x - 4, nose + 22, x + 4, tip), "solid") +
    clearedBreak([x - half - 8, top], [x + half + 8, top]) +
    line("centre", [x, top - 8], [x, tip + 8])
  );
}

/** A break line that takes the place of the edge under it. */
export function clearedBreak(from: Point, to: Point): Svg {
  return breakLine(from, to);
}

/** A dial with its stem's tip at the place; the stem points from the dial to the tip. */
export function dialIndicator(centre: Point, tip: Point, kind: LineKind = "wide"): Svg {
  const length = Math.hypot(tip[0] - centre[0], tip[1] - centre[1]);
  const ux = (tip[0] - centre[0]) / length;
  const uy = (tip[1] - centre[1]) / length;
  const at = (along: number, across: number): Point => [
    centre[0] + ux * along - uy * across,
    centre[1] + uy * along + ux * across,
  ];
  return (
    outline(kind, [at(15, -4), at(length - 16, -4), at(length - 16, 4), at(15, 4)], "solid") +
    line(kind, at(length - 16, 0), at(length - 3, 0)) +
    circle(kind, at(length - 3, 0), 3, "solid") +
    circle(kind, centre, 18, "solid") +
    circle("thin", centre, 13) +
    line(kind, centre, [centre[0] - 6, centre[1] - 9])
  );
}

/**
 * A square: the corner of its outer edges at `corner`, the stock along (ux, 0) for `stock` px and the blade up for
 * `blade` px. `side` = +1: the body lies to the right of the upright edge.
 */
export function standingSquare(
  [x, y]: Point,
  side: 1 | -1,
  blade: number,
  stock: number,
  kind: LineKind = "wide",
): Svg {
  const bladeWide = 16;
  const stockHigh = 20;
  return outline(
    kind,
    [
      [x, y],
      [x, y - blade],
      [x + side * bladeWide, y - blade],
      [x + side * bladeWide, y - stockHigh],
      [x + side * stock, y - stockHigh],
      [x + side * stock, y],
    ],
    "tint",
  );
}

/** Feeler leaves that fill a gap across the sheet, between two heights. */
export function leavesAcross(x0: number, x1: number, top: number, bottom: number): Svg {
  const count = 3;
  return Array.from({ length: count }, (_, i) => {
    const y = top + ((i + 0.5) * (bottom - top)) / count;
    return line("act", [x0, y], [x1, y]);
  }).join("");
}

/** Leaves that fill a gap between two upright faces. */
export function leavesUpright(left: number, right: number, y0: number, y1: number): Svg {
  const count = 2;
  return Array.from({ length: count }, (_, i) => {
    const x = left + ((i + 0.5) * (right - left)) / count;
    return line("act", [x, y0], [x, y1]);
  }).join("");
}

/** A name with a leader to what it names. */
export function named(text: string, at: Point, target: Point, anchor: LetteringStyle["anchor"] = "start"): Svg {
  const width = textWidth(text);
  const left = anchor === "start" ? at[0] : anchor === "middle" ? at[0] - width / 2 : at[0] - width;
  // The leader leaves the text on the side of what it names.
  const from: Point = target[0] > left + width / 2 ? [left + width + 3, at[1] - 4] : [left - 3, at[1] - 4];
  return leader(from, target) + lettering(text, at, { anchor });
}

export function label(text: string, at: Point, anchor: LetteringStyle["anchor"] = "start"): Svg {
  return lettering(text, at, { anchor });
}

export function secondLabel(text: string, at: Point, anchor: LetteringStyle["anchor"] = "start"): Svg {
  return lettering(text, at, { anchor, second: true });
}

/** The arrow that says which way reads plus: a plus in a ring at its root. */
export function plusArrow(from: Point, to: Point): Svg {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const start: Point = [from[0] + ((to[0] - from[0]) / length) * 7, from[1] + ((to[1] - from[1]) / length) * 7];
  return (
    wayArrow(start, to) +
    circle("wide", from, 7, "solid") +
    line("wide", [from[0] - 3.5, from[1]], [from[0] + 3.5, from[1]]) +
    line("wide", [from[0], from[1] - 3.5], [from[0], from[1] + 3.5])
  );
}

/** A rule seen from above or from the side, graduated, from its zero to its other end. */
export function graduatedRule(from: Point, to: Point, wide = 20): Svg {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const ux = (to[0] - from[0]) / length;
  const uy = (to[1] - from[1]) / length;
  const at = (along: number, across: number): Point => [
    from[0] + ux * along - uy * across,
    from[1] + uy * along + ux * across,
  ];
  const ticks = Array.from({ length: Math.floor(length / 8) + 1 }, (_, i) =>
    line("thin", at(i * 8, 0), at(i * 8, i % 5 === 0 ? wide * 0.55 : wide * 0.3)),
  );
  return outline("wide", [at(0, 0), at(length, 0), at(length, wide), at(0, wide)], "tint") + ticks.join("");
}
