import { invariant } from "../base/invariant.ts";
import { type FittedLine, lineWithDeviations } from "./line-fit.ts";

/**
 * Minimum-zone straightness of a profile: the narrowest pair of parallel lines that holds all points, and the line
 * midway between them.
 *
 *   width = min over s of [max(zᵢ − s·xᵢ) − min(zᵢ − s·xᵢ)]
 *
 * The width is measured along the heights, which for slopes of a few mm/m is the distance across. As a function of s it
 * is convex and made of straight pieces that meet at the slopes of the convex hull's edges, so the least width stands
 * at one of those slopes: the search is exact but for rounding. Source: the minimum-zone reference line of
 * [ISO 230-1]; the search over hull edges is common practice.
 *
 * @param positions along the profile, in any order
 * @param heights one for each position, in any unit
 * @returns undefined when all positions are the same
 */
export function minimumZoneLine(positions: readonly number[], heights: readonly number[]): FittedLine | undefined {
  invariant(positions.length === heights.length, "a profile needs one height for each position");
  const order = positions.map((_, i) => i).sort((a, b) => positions[a]! - positions[b]! || heights[a]! - heights[b]!);
  const zone = narrowestZone(order, positions, heights);
  return zone ? lineWithDeviations(zone.middle, zone.slope, positions, heights) : undefined;
}

/** Only the width, for positions in ascending order: Monte Carlo asks for it by the thousand and builds no line. */
export function minimumZoneWidth(positions: readonly number[], heights: ArrayLike<number>): number {
  const order = positions.map((_, i) => i);
  return narrowestZone(order, positions, heights)?.width ?? 0;
}

interface Zone {
  readonly width: number;
  readonly slope: number;
  /** Height of the line midway, at position 0. */
  readonly middle: number;
}

function narrowestZone(
  order: readonly number[],
  positions: readonly number[],
  heights: ArrayLike<number>,
): Zone | null {
  const upper = hullChain(order, positions, heights, 1);
  const lower = hullChain(order, positions, heights, -1);
  let best: Zone | null = null;
  for (const chain of [upper, lower]) {
    for (let k = 1; k < chain.length; k++) {
      const [a, b] = [chain[k - 1]!, chain[k]!];
      const run = positions[b]! - positions[a]!;
      if (!(run > 0)) continue;
      const slope = (heights[b]! - heights[a]!) / run;
      let top = Number.NEGATIVE_INFINITY;
      let bottom = Number.POSITIVE_INFINITY;
      for (const i of upper) top = Math.max(top, heights[i]! - slope * positions[i]!);
      for (const i of lower) bottom = Math.min(bottom, heights[i]! - slope * positions[i]!);
      if (best === null || top - bottom < best.width) best = { width: top - bottom, slope, middle: (top + bottom) / 2 };
    }
  }
  return best;
}

/** One side of the convex hull, from the least position to the greatest: the upper for side = 1, the lower for −1. */
function hullChain(
  order: readonly number[],
  positions: readonly number[],
  heights: ArrayLike<number>,
  side: 1 | -1,
): number[] {
  const chain: number[] = [];
  for (const point of order) {
    while (chain.length >= 2) {
      const a = chain[chain.length - 2]!;
      const b = chain[chain.length - 1]!;
      const turn =
        (positions[b]! - positions[a]!) * (heights[point]! - heights[a]!) -
        (heights[b]! - heights[a]!) * (positions[point]! - positions[a]!);
      if (side * turn < 0) break;
      chain.pop();
    }
    chain.push(point);
  }
  return chain;
}
