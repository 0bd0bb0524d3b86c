import { lettering, textWidth } from "./lettering.ts";
import type { LineKind } from "./stylesheet.ts";
import { element, numberText, type Point, type Svg } from "./svg.ts";

export type { Point };

/** Arrowheads are filled, 10 px long and 4 px wide. */
export const arrowLength = 10;
const ARROW_WIDTH = 4;

/** An open line through the points. */
export function line(kind: LineKind, ...points: readonly Point[]): Svg {
  return element("path", { class: kind, d: pathText(points) });
}

export type Filling = "none" | "solid" | "tint";

/** A closed outline; "solid" hides what was drawn before it. */
export function outline(kind: LineKind, points: readonly Point[], filling: Filling = "none"): Svg {
  return element("path", { class: classOf(kind, filling), d: `${pathText(points)}z` });
}

export function circle(kind: LineKind, [cx, cy]: Point, r: number, filling: Filling = "none"): Svg {
  return element("circle", { class: classOf(kind, filling), cx, cy, r });
}

/** An arc of a circle from one angle to the other, degrees counter-clockwise from the right as seen on the sheet. */
export function arc(kind: LineKind, centre: Point, r: number, from: number, to: number): Svg {
  const steps = Math.max(4, Math.ceil(Math.abs(to - from) / 6));
  const points = Array.from({ length: steps + 1 }, (_, i) => onCircle(centre, r, from + ((to - from) * i) / steps));
  return line(kind, ...points);
}

export function onCircle([cx, cy]: Point, r: number, degrees: number): Point {
  const angle = (degrees * Math.PI) / 180;
  return [cx + r * Math.cos(angle), cy - r * Math.sin(angle)];
}

export function rectangle(x0: number, y0: number, x1: number, y1: number): readonly Point[] {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

/** A filled arrowhead with its tip at `tip`, pointing away from `from`. */
export function arrowhead(from: Point, tip: Point, fill: "arrow" | "ink" | "here" = "arrow", size = 1): Svg {
  const length = Math.hypot(tip[0] - from[0], tip[1] - from[1]) || 1;
  const ux = (tip[0] - from[0]) / length;
  const uy = (tip[1] - from[1]) / length;
  const back: Point = [tip[0] - ux * arrowLength * size, tip[1] - uy * arrowLength * size];
  const half = (ARROW_WIDTH / 2) * size;
  const corners: Point[] = [
    tip,
    [back[0] - uy * half, back[1] + ux * half],
    [back[0] + uy * half, back[1] - ux * half],
  ];
  return element("path", { class: fill, d: `${pathText(corners)}z` });
}

/** A leader: an arrow on an outline, a dot inside an area. */
export function leader(from: Point, to: Point, end: "arrow" | "dot" = "arrow"): Svg {
  const mark = end === "arrow" ? arrowhead(from, to) : dot(to);
  return line("thin", from, to) + mark;
}

export function dot([cx, cy]: Point, r = 2.5): Svg {
  return element("circle", { class: "ink", cx, cy, r });
}

export interface DimensionLine {
  /** The two places whose distance is given. */
  readonly from: Point;
  readonly to: Point;
  /** "x": measured across the sheet, "y": up it. */
  readonly along: "x" | "y";
  /** Where the dimension line runs: its y when along x, its x when along y. */
  readonly at: number;
  readonly text: string;
  /** Where along the line the number stands, 0 to 1: off the middle where a centre line crosses it. */
  readonly textAt?: number;
}

/** Extension lines, dimension line and its number, over the line and reading upright or from the right. */
export function dimension({ from, to, along, at, text, textAt = 0.5 }: DimensionLine): Svg {
  const upright = along === "y";
  // Everything is laid out as if along x; `place` turns it.
  const place = (a: number, b: number): Point => (upright ? [b, a] : [a, b]);
  const [a0, b0] = upright ? [from[1], from[0]] : from;
  const [a1, b1] = upright ? [to[1], to[0]] : to;
  const low = Math.min(a0, a1);
  const high = Math.max(a0, a1);
  const parts: Svg[] = [];
  for (const [a, b] of [
    [a0, b0],
    [a1, b1],
  ] as const) {
    const way = Math.sign(at - b) || 1;
    parts.push(line("thin", place(a, b + 3 * way), place(a, at + 5 * way)));
  }
  const room = high - low;
  const wide = textWidth(text);
  if (room >= 2 * arrowLength + 6) {
    parts.push(line("thin", place(low, at), place(high, at)));
    parts.push(arrowhead(place(high, at), place(low, at)), arrowhead(place(low, at), place(high, at)));
  } else {
    // Too short for arrows between the extension lines: they point in from outside.
    parts.push(line("thin", place(low - 18, at), place(high + 18, at)));
    parts.push(arrowhead(place(low - 18, at), place(low, at)), arrowhead(place(high + 18, at), place(high, at)));
  }
  const inside = room >= wide + 4;
  const centre = inside ? low + textAt * (high - low) : upright ? low - 20 - wide / 2 : high + 22 + wide / 2;
  parts.push(lettering(text, place(centre, at - 4), { anchor: "middle", second: true, turned: upright }));
  return parts.join("");
}

/** Thin lines at 45° over an area, as on a part that is cut. */
export function hatching(area: readonly Point[], gapPx = 7): Svg {
  const sums = area.map(([x, y]) => x + y);
  const step = gapPx * Math.SQRT2;
  const strokes: string[] = [];
  for (let c = Math.ceil(Math.min(...sums) / step) * step; c < Math.max(...sums); c += step) {
    const crossings: number[] = [];
    area.forEach(([x0, y0], i) => {
      const [x1, y1] = area[(i + 1) % area.length];
      const s0 = x0 + y0 - c;
      const s1 = x1 + y1 - c;
      if (s0 < 0 !== s1 < 0) crossings.push(x0 + ((x1 - x0) * s0) / (s0 - s1));
    });
    crossings.sort((a, b) => a - b);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const [xa, xb] = [crossings[i], crossings[i + 1]];
      if (xb - xa > 0.5)
        strokes.push(
          pathText([
            [xa, c - xa],
            [xb, c - xb],
          ]),
        );
    }
  }
  return strokes.length > 0 ? element("path", { class: "thin", d: strokes.join("") }) : "";
}

/** A thin line with a zigzag in its middle: the part goes on. */
export function breakLine(from: Point, to: Point): Svg {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const ux = (to[0] - from[0]) / length;
  const uy = (to[1] - from[1]) / length;
  const at = (along: number, across: number): Point => [
    from[0] + ux * along - uy * across,
    from[1] + uy * along + ux * across,
  ];
  const m = length / 2;
  return line("thin", from, at(m - 5, 0), at(m - 2, 6), at(m + 2, -6), at(m + 5, 0), to);
}

/** An arrow in wide line that shows which way something goes. */
export function wayArrow(from: Point, to: Point, kind: "wide" | "act" = "wide"): Svg {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const neck: Point = [to[0] - ((to[0] - from[0]) / length) * 10, to[1] - ((to[1] - from[1]) / length) * 10];
  return line(kind, from, neck) + arrowhead(from, to, kind === "wide" ? "ink" : "here", 1.5);
}

export function pathText(points: readonly Point[]): string {
  return points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${numberText(x)} ${numberText(y)}`).join("");
}

function classOf(kind: LineKind, filling: Filling): string {
  return filling === "none" ? kind : `${kind} ${filling}`;
}
