import { invariant } from "../base/invariant.ts";
import { triangularise } from "../numerics/householder.ts";
import { solveUpper } from "../numerics/triangular.ts";

/** A plane over a field of points: height = height at the origin + slopeX·x + slopeY·y. */
export interface FittedPlane {
  readonly heightAtOrigin: number;
  readonly slopeX: number;
  readonly slopeY: number;
  /** Height of each point over the plane, in the order of the points. */
  readonly deviations: readonly number[];
  /** Greatest minus least deviation, measured along the heights. */
  readonly width: number;
}

/**
 * The least-squares plane z = c + a·x + b·y, by an orthogonal reduction of the rows [1, x, y | z].
 *
 * Closed form. Heights are taken as the only uncertain part; they may be in another unit than x and y.
 *
 * @returns undefined when the points do not spread over a plane (fewer than three, or all on one line in plan)
 */
export function leastSquaresPlane(
  x: readonly number[],
  y: readonly number[],
  heights: readonly number[],
): FittedPlane | undefined {
  const count = heights.length;
  invariant(x.length === count && y.length === count, "a field needs one height for each place");
  const plan = normalisedPlan(x, y);
  if (count < 3 || plan === undefined) return undefined;
  const rows = new Float64Array(count * 4);
  for (let i = 0; i < count; i++) rows.set([1, plan.u[i]!, plan.v[i]!, heights[i]!], i * 4);
  triangularise(rows, count, 4, 3);
  if (!(Math.min(Math.abs(rows[5]!), Math.abs(rows[10]!)) > thinPlan * Math.sqrt(count))) return undefined;
  const [c, a, b] = solveUpper(rows, 3, 4, [rows[3]!, rows[7]!, rows[11]!]) as unknown as [number, number, number];
  return plan.restore(c, a, b, x, y, heights);
}

/** Points whose plan is thinner than this share of its length stand on one line. */
const thinPlan = 1e-9;

interface NormalisedPlan {
  readonly u: readonly number[];
  readonly v: readonly number[];
  /** The plane c + a·u + b·v in the places' own coordinates, with its deviations. */
  restore(
    c: number,
    a: number,
    b: number,
    x: readonly number[],
    y: readonly number[],
    heights: readonly number[],
  ): FittedPlane;
}

/** Places shifted and scaled to about [−1, 1], so that tests of size mean something; undefined for a single place. */
export function normalisedPlan(x: readonly number[], y: readonly number[]): NormalisedPlan | undefined {
  const centreX = (Math.max(...x) + Math.min(...x)) / 2;
  const centreY = (Math.max(...y) + Math.min(...y)) / 2;
  const size = Math.max(Math.max(...x) - centreX, Math.max(...y) - centreY);
  if (!(size > 0)) return undefined;
  return {
    u: x.map((value) => (value - centreX) / size),
    v: y.map((value) => (value - centreY) / size),
    restore(c, a, b, places, others, heights) {
      const slopeX = a / size;
      const slopeY = b / size;
      const heightAtOrigin = c - slopeX * centreX - slopeY * centreY;
      const deviations = heights.map(
        (height, i) => height - (c + slopeX * (places[i]! - centreX) + slopeY * (others[i]! - centreY)),
      );
      return {
        heightAtOrigin,
        slopeX,
        slopeY,
        deviations,
        width: Math.max(...deviations) - Math.min(...deviations),
      };
    },
  };
}
