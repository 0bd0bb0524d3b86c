import { invariant } from "../base/invariant.ts";

/**
 * How far the edge of a knife straightedge may depart from straight, in mm: t = 2 + L/250 µm, of one grade, rounded to
 * a whole µm. Source: [DIN 874-2].
 *
 * @param lengthMm of the edge, positive
 */
export function knifeStraightedgeLimitMm(lengthMm: number): number {
  invariant(lengthMm > 0, "a length is positive");
  return Math.round(2 + lengthMm / 250) / 1000;
}
