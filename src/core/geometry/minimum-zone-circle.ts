import { chebyshevFit } from "./chebyshev-fit.ts";
import { circleWithDeviations, type FittedCircle, leastSquaresCircle } from "./circle-fit.ts";

/**
 * The minimum-zone circle: the centre about which two circles that hold all points between them have the least radial
 * separation, with the circle midway between the two.
 *
 *   width = min over x₀, y₀ of [max dᵢ − min dᵢ],  dᵢ = √((xᵢ−x₀)² + (yᵢ−y₀)²)
 *
 * At the best centre the two circles touch at least four points, so that the centre is equally far from two points of
 * one pair and from two of another: with up to 40 points every crossing of two perpendicular bisectors is tried, which
 * is exact. With more, the distances are made linear about a centre and the Chebyshev fit of them moves it, from the
 * least-squares centre on until it stays; for points all round a nearly round path both give the same circle. The
 * narrowest straight strip is not a candidate: for points on a short arc it can be narrower still.
 * Source: the minimum zone of [ISO 230-4 §3]; the four-point condition is closed form.
 *
 * @returns undefined when the points do not settle a circle (fewer than three, or all on one line)
 */
export function minimumZoneCircle(x: readonly number[], y: readonly number[]): FittedCircle | undefined {
  const start = leastSquaresCircle(x, y);
  if (start === undefined) return undefined;
  return x.length <= enumerationLimit ? byBisectors(x, y, start) : byLinearSteps(x, y, start);
}

/** Where trying all crossings of bisectors (about n⁴/8 of them, each against n points) begins to take a second. */
const enumerationLimit = 40;

function byBisectors(x: readonly number[], y: readonly number[], start: FittedCircle): FittedCircle {
  const count = x.length;
  // Bisector of points i, j: nx·x₀ + ny·y₀ = offset, about the start's centre to keep digits.
  const normalX: number[] = [];
  const normalY: number[] = [];
  const offset: number[] = [];
  const u = x.map((value) => value - start.centreX);
  const v = y.map((value) => value - start.centreY);
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const dx = u[j]! - u[i]!;
      const dy = v[j]! - v[i]!;
      const length = Math.hypot(dx, dy);
      if (length === 0) continue;
      normalX.push(dx / length);
      normalY.push(dy / length);
      offset.push((dx * (u[i]! + u[j]!) + dy * (v[i]! + v[j]!)) / (2 * length));
    }
  }
  let best = { x: 0, y: 0, width: start.width };
  for (let p = 0; p < offset.length; p++) {
    for (let q = p + 1; q < offset.length; q++) {
      const cross = normalX[p]! * normalY[q]! - normalY[p]! * normalX[q]!;
      if (Math.abs(cross) < 1e-12) continue;
      const cx = (offset[p]! * normalY[q]! - offset[q]! * normalY[p]!) / cross;
      const cy = (offset[q]! * normalX[p]! - offset[p]! * normalX[q]!) / cross;
      const width = separationBelow(best.width, u, v, cx, cy);
      if (width < best.width) best = { x: cx, y: cy, width };
    }
  }
  return midwayCircle(start.centreX + best.x, start.centreY + best.y, x, y);
}

/** The radial separation about a centre, or Infinity as soon as it is no better than the limit. */
function separationBelow(limit: number, u: readonly number[], v: readonly number[], cx: number, cy: number): number {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (let i = 0; i < u.length; i++) {
    const dx = u[i]! - cx;
    const dy = v[i]! - cy;
    const distance = Math.sqrt(dx * dx + dy * dy);
    if (distance < least) least = distance;
    if (distance > most) most = distance;
    if (most - least >= limit) return Number.POSITIVE_INFINITY;
  }
  return most - least;
}

function byLinearSteps(x: readonly number[], y: readonly number[], start: FittedCircle): FittedCircle {
  let best = midwayCircle(start.centreX, start.centreY, x, y);
  for (let iteration = 0; iteration < 50; iteration++) {
    // To first order, moving the centre by (a, b) shortens the distance to a point in direction f by a·cos f + b·sin f.
    const cosines = x.map((value, i) => (value - best.centreX) / (best.radius + best.deviations[i]!));
    const sines = y.map((value, i) => (value - best.centreY) / (best.radius + best.deviations[i]!));
    const fit = chebyshevFit(cosines, sines, best.deviations);
    if (fit === undefined) return best;
    const next = midwayCircle(best.centreX + fit.a, best.centreY + fit.b, x, y);
    if (!(next.width < best.width)) return best;
    best = next;
  }
  return best;
}

function midwayCircle(centreX: number, centreY: number, x: readonly number[], y: readonly number[]): FittedCircle {
  const distances = x.map((value, i) => Math.hypot(value - centreX, y[i]! - centreY));
  const radius = (Math.max(...distances) + Math.min(...distances)) / 2;
  return circleWithDeviations(centreX, centreY, radius, x, y);
}
