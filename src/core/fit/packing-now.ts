import { adjustersOf } from "../machine/adjusters/catalogue.ts";
import type { Machine } from "../machine/machine.ts";
import type { Timeline } from "./timeline.ts";

/**
 * What lies at each packing place now, mm, by adjuster: what the description states, and what moves have added since it
 * was stated. Behind the bottom screws of a place that has both it counts negative; elsewhere there is never less than
 * nothing.
 */
export function packingNow(machine: Machine, timeline: Timeline): ReadonlyMap<string, number> {
  const { packingNowMm } = machine.dimensions.details;
  const places = adjustersOf(machine).filter(({ packing }) => packing !== "none");
  return new Map(
    places.map(({ id, packing }) => {
      const statedAt = timeline.packingStatedAt.get(id) ?? Number.NEGATIVE_INFINITY;
      let lies = packingNowMm[id] ?? 0;
      for (const happening of timeline.happenings) {
        if (happening.kind !== "moved" || happening.adjuster !== id || happening.at < statedAt) continue;
        lies += happening.amount;
      }
      // A sum of leaves is no finer than a leaf's last digit.
      const rounded = Math.round(lies * 1e6) / 1e6;
      return [id, packing === "one place" ? Math.max(0, rounded) : rounded] as const;
    }),
  );
}
