import { invariant } from "../base/invariant.ts";
import { chebyshevFit } from "./chebyshev-fit.ts";
import { type FittedPlane, normalisedPlan } from "./plane-fit.ts";

/**
 * Minimum-zone flatness of a field of points: the narrowest pair of parallel planes that holds all of them, and the
 * plane midway between them.
 *
 *   width = min over a, b of [max(zᵢ − a·xᵢ − b·yᵢ) − min(zᵢ − a·xᵢ − b·yᵢ)]
 *
 * The width is measured along the heights, which for slopes of a few mm/m is the distance across. Exact but for
 * rounding: it is twice the least greatest deviation from a plane. Source: the minimum-zone reference plane of
 * [ISO 230-1], solved as a Chebyshev fit.
 *
 * @param x, y places in plan, in one unit
 * @param heights one for each place, in any unit
 * @returns undefined when the points do not spread over a plane (fewer than three, or all on one line in plan)
 */
export function minimumZonePlane(
  x: readonly number[],
  y: readonly number[],
  heights: readonly number[],
): FittedPlane | undefined {
  invariant(x.length === heights.length && y.length === heights.length, "a field needs one height for each place");
  const plan = normalisedPlan(x, y);
  if (heights.length < 3 || plan === undefined) return undefined;
  // Heights about their middle, so that a common height does not eat digits.
  const middle = (Math.max(...heights) + Math.min(...heights)) / 2;
  const fit = chebyshevFit(
    plan.u,
    plan.v,
    heights.map((height) => height - middle),
  );
  return fit && plan.restore(fit.c + middle, fit.a, fit.b, x, y, heights);
}
