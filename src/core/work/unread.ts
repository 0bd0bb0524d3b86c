import { narrowing, UNREAD } from "../findings/narrowing.ts";
import type { Estimate } from "../fit/estimate.ts";
import { presentScene, unreadVariances } from "../fit/present-scene.ts";
import type { Demand } from "./demand.ts";
import type { DemandResult } from "./demand-result.ts";

/**
 * Demands, by id, of which the readings say next to nothing: all that bears on one of its samples is what is usual, or
 * what a cure usually leaves and nobody has read since. A spread is one number from all of its samples, and a place of
 * which little was in doubt decides little of it: there each sample weighs by what was in doubt of it.
 */
export function unreadDemands(estimate: Estimate, demands: readonly Demand[]): ReadonlySet<string> {
  const scene = presentScene(estimate);
  const unread = unreadVariances(estimate);
  const isUnread = (demand: Demand) => {
    const gradients = demand.samples(scene).flatMap(({ gradient }) => (bears(gradient) ? [gradient] : []));
    const left = gradients.map((gradient) => narrowing(estimate, gradient, unread));
    if (demand.form === "largest") return left.some((share) => share > UNREAD);
    const doubt = gradients.map((gradient) => gradient.reduce((sum, g, i) => sum + g * g * (unread[i] ?? 0), 0));
    const all = doubt.reduce((sum, variance) => sum + variance, 0);
    return all > 0 && left.reduce((sum, share, k) => sum + share ** 2 * doubt[k], 0) > UNREAD ** 2 * all;
  };
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
