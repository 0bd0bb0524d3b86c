import { invariant } from "../base/invariant.ts";
import { leastSquaresCircle } from "../geometry/circle-fit.ts";
import { minimumZoneCircle } from "../geometry/minimum-zone-circle.ts";

/** Points of an actual circular path, in one plane. */
export interface CircularPath {
  readonly xMm: readonly number[];
  readonly yMm: readonly number[];
}

/** G of a path, about the two reference circles in use. */
export interface CircularDeviation {
  /** Least radial separation of two concentric circles that hold the path. */
  readonly minimumZoneMm: number;
  /** Radial separation about the centre of the least-squares circle; never less than the minimum zone. */
  readonly leastSquaresMm: number;
}

/** How far a path stands outside (+) and inside (−) the nominal circle about a stated centre. */
export interface RadialDeviation {
  readonly largestMm: number;
  readonly smallestMm: number;
}

/**
 * The circular deviation G of a path: the least radial separation of two concentric circles with the path between them;
 * the separation about the least-squares circle is allowed in its place. Source: [ISO 230-4 §3].
 *
 * For both ways round (the bidirectional deviation) give the points of both paths together.
 *
 * @returns undefined when the points do not settle a circle
 */
export function circularDeviation(path: CircularPath): CircularDeviation | undefined {
  const fitted = leastSquaresCircle(path.xMm, path.yMm);
  const zone = minimumZoneCircle(path.xMm, path.yMm);
  if (fitted === undefined || zone === undefined) return undefined;
  return { minimumZoneMm: zone.width, leastSquaresMm: fitted.width };
}

/**
 * The radial deviation F of a path from its nominal circle: greatest and least of the distance from the centre less the
 * nominal radius. The centre is the one set up, or that of the least-squares circle. Source: [ISO 230-4 §3].
 */
export function radialDeviation(
  path: CircularPath,
  nominalRadiusMm: number,
  centreMm: readonly [x: number, y: number],
): RadialDeviation {
  invariant(path.xMm.length > 0 && path.xMm.length === path.yMm.length, "a path has points with both coordinates");
  const deviations = path.xMm.map((x, i) => Math.hypot(x - centreMm[0], path.yMm[i]! - centreMm[1]) - nominalRadiusMm);
  return { largestMm: Math.max(...deviations), smallestMm: Math.min(...deviations) };
}
