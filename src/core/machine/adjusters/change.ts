import type { Adjuster } from "./adjuster.ts";

/** What the owner of a machine knows better than common practice about one of its adjusters. */
export interface AdjusterChange {
  readonly range?: readonly [from: number, to: number];
  /** In the amount's unit. */
  readonly sd?: number;
  readonly minutes?: number;
  /** False where this machine has no such place, or nobody gets at it. */
  readonly available?: boolean;
}

export function changedAdjuster(adjuster: Adjuster, change: AdjusterChange | undefined): Adjuster {
  if (!change) return adjuster;
  const { range = adjuster.range, sd = adjuster.sd, minutes = adjuster.minutes } = change;
  return { ...adjuster, range, sd, minutes, available: change.available ?? adjuster.available };
}
