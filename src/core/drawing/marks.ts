import { lettering } from "./lettering.ts";
import { circle, line, outline, type Point } from "./lines.ts";
import { element, group, moved, type Svg } from "./svg.ts";

/** A station is not read yet, has been read, or is the one to read now. */
export type StationState = "open" | "read" | "now";

export const ringRadius = 10;

/** A station: ring with its number, hollow until it is read. Sentences, tables and drawings share the number. */
export function stationRing([cx, cy]: Point, number: number | string, state: StationState = "open"): Svg {
  const text = String(number);
  // Three figures do not fit a round ring: it becomes longer, not its number smaller.
  const half = Math.max(ringRadius, 3 + 3.9 * text.length);
  return group(
    { class: state === "open" ? "mark" : `mark ${state}` },
    half > ringRadius
      ? element("rect", { x: cx - half, y: cy - ringRadius, width: 2 * half, height: 2 * ringRadius, rx: ringRadius })
      : element("circle", { cx, cy, r: ringRadius }),
    lettering(text, [cx, cy + 4.5]),
  );
}

/** An adjuster: hexagon, as a screw's head from above, with its letter. */
export function adjusterHexagon([cx, cy]: Point, letter: string, state: "open" | "now" = "open", radius = 11): Svg {
  const corners = [0, 60, 120, 180, 240, 300].map((degrees): Point => {
    const angle = (degrees * Math.PI) / 180;
    return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)];
  });
  const d = `${corners.map(([x, y], i) => `${i === 0 ? "M" : "L"}${x.toFixed(2)} ${y.toFixed(2)}`).join("")}z`;
  return group(
    { class: state === "open" ? "mark" : "mark now" },
    element("path", { d }),
    lettering(letter, [cx, cy + 4.5]),
  );
}

/** A person seen from above who stands at the front and faces the machine, which is up on the sheet. */
export function standingPerson([cx, cy]: Point): Svg {
  return moved(
    cx,
    cy,
    element("ellipse", { class: "thin solid", cx: 0, cy: 2, rx: 18, ry: 6.5 }),
    element("path", { class: "thin solid", d: "M-15 0C-16 -7 -12 -9 -10 -8L-9 -3M15 0C16 -7 12 -9 10 -8L9 -3" }),
    element("path", { class: "wide solid", d: "M-2.5 -6L0 -10L2.5 -6" }),
    element("circle", { class: "wide solid", cx: 0, cy: 0, r: 6.5 }),
  );
}

/** The person and the word that every plan view carries, centred under it. */
export function frontOfMachine([cx, top]: Point): Svg {
  return standingPerson([cx - 26, top + 12]) + lettering("front", [cx + 6, top + 17], { second: true });
}

export type ProjectionAngle = "third" | "first";

/** Symbol of the projection, 58 × 24 px from its upper left corner: circles d and 2d, cone 2d long, d to 2d high. */
export function projectionSymbol([x, y]: Point, angle: ProjectionAngle): Svg {
  const r = 12;
  const middle = y + r;
  const third = angle === "third";
  const circlesAt = third ? x + r : x + 58 - r;
  const cone = third ? x + 32 : x;
  // Third angle: the small end is towards the circles; first angle: the cone lies left, its large end outwards.
  const ends: readonly [left: number, right: number] = third ? [r / 2, r] : [r, r / 2];
  return (
    circle("wide", [circlesAt, middle], r) +
    circle("wide", [circlesAt, middle], r / 2) +
    outline("wide", [
      [cone, middle - ends[0]],
      [cone + 24, middle - ends[1]],
      [cone + 24, middle + ends[1]],
      [cone, middle + ends[0]],
    ]) +
    line("centre", [circlesAt - r - 4, middle], [circlesAt + r + 3, middle]) +
    line("centre", [circlesAt, middle - r - 4], [circlesAt, middle + r + 4]) +
    line("centre", [cone - 3, middle], [cone + 28, middle])
  );
}
