import { leader, outline, type Point } from "./lines.ts";
import { adjusterHexagon } from "./marks.ts";
import { element, numberText, type Svg } from "./svg.ts";

/** One screw on the sheet: its head, which way it points out of the part (px, down the sheet +), null when seen head on. */
export interface ScrewMark {
  readonly at: Point;
  readonly outwards: Point | null;
  readonly name: string;
  /** From the head to the mark, px, where there is no room at the head itself. */
  readonly away: Point;
}

export const screwRadius = 13;

/** Two letters need the room of a screw's name. */
export function hexagonRadius(letter: string): number {
  return letter.length > 1 ? screwRadius : 11;
}

/**
 * Screws as hexagons with their names, filled where they are to be loosened. Heads that stand too close for their
 * hexagons, or are seen from the side, have them off in a row, with a leader to the heads.
 */
export function screwMarks(screws: readonly ScrewMark[], state: "open" | "now"): Svg {
  const heads = screws.map(({ at, outwards }) => (outwards ? headFromTheSide(at, outwards) : "")).join("");
  const groups = groupsOf(screws);
  const leaders: Svg[] = [];
  const marks: Svg[] = [];
  for (const group of groups) {
    const head = middleOf(group.map(({ at }) => at));
    const { away, outwards } = group[0]!;
    if (group.length === 1 && !outwards) {
      marks.push(adjusterHexagon(head, group[0]!.name, state, screwRadius));
      continue;
    }
    const pitch = 2 * screwRadius + 2;
    const width = pitch * (group.length - 1);
    // A row that stands beside its heads ends towards them.
    const middle: Point = [head[0] + away[0] + (Math.sign(away[0]) * width) / 2, head[1] + away[1]];
    const nearest: Point = [Math.min(Math.max(head[0], middle[0] - width / 2), middle[0] + width / 2), middle[1]];
    leaders.push(leader(nearest, headTip(group, head), outwards ? "arrow" : "dot"));
    group.forEach(({ name }, i) => {
      marks.push(adjusterHexagon([middle[0] - width / 2 + i * pitch, middle[1]], name, state, screwRadius));
    });
  }
  return heads + leaders.join("") + marks.join("");
}

/** The arrow that says which way the part goes: filled, its tip the fourth corner, its root between first and last. */
export function partArrow(from: Point, to: Point): Svg {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const at = (along: number, across: number): Point => [
    from[0] + ux * along - uy * across,
    from[1] + uy * along + ux * across,
  ];
  const neck = length - 15;
  const corners = [at(0, -2), at(neck, -2), at(neck, -7), to, at(neck, 7), at(neck, 2), at(0, 2)];
  const d = corners.map(([x, y], i) => `${i === 0 ? "M" : "L"}${numberText(x)} ${numberText(y)}`).join("");
  return element("path", { class: "here way", d: `${d}z` });
}

/** A slot with its ends round, about a screw. */
export function slot([x, y]: Point, wide: number, tall: number): Svg {
  return element("rect", {
    class: "wide solid",
    x: x - wide / 2,
    y: y - tall / 2,
    width: wide,
    height: tall,
    rx: wide / 2,
  });
}

function headFromTheSide([x, y]: Point, [ox, oy]: Point): Svg {
  const across: Point = [-oy, ox];
  const corner = (out: number, side: number): Point => [
    x + ox * out + across[0] * side,
    y + oy * out + across[1] * side,
  ];
  const shank = [corner(0, -3), corner(-16, -3), corner(-16, 3), corner(0, 3)];
  return (
    outline("hidden", shank) + outline("wide", [corner(0, -7), corner(7, -7), corner(7, 7), corner(0, 7)], "solid")
  );
}

function headTip(group: readonly ScrewMark[], head: Point): Point {
  const out = group[0]!.outwards;
  return out ? [head[0] + 7 * out[0], head[1] + 7 * out[1]] : head;
}

function groupsOf(screws: readonly ScrewMark[]): readonly (readonly ScrewMark[])[] {
  const groups: ScrewMark[][] = [];
  for (const screw of screws) {
    const near = groups.find((group) =>
      group.some(({ at }) => Math.hypot(at[0] - screw.at[0], at[1] - screw.at[1]) < 2 * screwRadius),
    );
    if (near) near.push(screw);
    else groups.push([screw]);
  }
  return groups;
}

function middleOf(points: readonly Point[]): Point {
  return [
    points.reduce((sum, [x]) => sum + x, 0) / points.length,
    points.reduce((sum, [, y]) => sum + y, 0) / points.length,
  ];
}
