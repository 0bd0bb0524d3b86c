import { line, type Point } from "./lines.ts";
import type { Svg } from "./svg.ts";

const TICK = 3.5;
/** Shorter than this, px, it would look like a letter, or be lost in the wide line. */
const SHORTEST = 7;

/** Where something lies in 95 of 100 cases: a thin line with a tick at both ends; empty where it is too short to be seen. */
export function knownBar(from: Point, to: Point): Svg {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length < SHORTEST) return "";
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const tick = ([x, y]: Point) => line("thin", [x - uy * TICK, y + ux * TICK], [x + uy * TICK, y - ux * TICK]);
  return line("thin", from, to) + tick(from) + tick(to);
}

/** The same on a level, about its middle. */
export function levelBar([x, y]: Point, half: number): Svg {
  return knownBar([x - half, y], [x + half, y]);
}
