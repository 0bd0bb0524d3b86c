import { narrowing, UNREAD } from "../findings/narrowing.ts";
import type { Estimate } from "../fit/estimate.ts";
import { presentScene, unreadVariances } from "../fit/present-scene.ts";
import type { Demand } from "./demand.ts";
import type { DemandResult } from "./demand-result.ts";

/**
 * Demands, by id, of which the readings say next to nothing: all that bears on one of its samples is what is usual, or
 * what a cure usually leaves and nobody has read since.
 */
export function unreadDemands(estimate: Estimate, demands: readonly Demand[]): ReadonlySet<string> {
  const scene = presentScene(estimate);
  const unread = unreadVariances(estimate);
  const isUnread = (demand: Demand) =>
    demand.samples(scene).some(({ gradient }) => bears(gradient) && narrowing(estimate, gradient, unread) > UNREAD);
  return new Set(demands.filter(isUnread).map(({ id }) => id));
}

/** A sample that nothing bears on, as the place from which the others count, is known without any reading. */
function bears(gradient: Float64Array): boolean {
  return gradient.some((slope) => slope !== 0);
}

/** What is usual of machines in general is no verdict on this one. */
export function withUnreadHeldBack(
  results: readonly DemandResult[],
  unread: ReadonlySet<string>,
): readonly DemandResult[] {
  return results.map((result) => (unread.has(result.demand.id) ? { ...result, verdict: "not known yet" } : result));
}
