import type { Adjuster } from "./adjuster.ts";
import { isStepsPerMm } from "./sentence.ts";

/** What the owner of a machine knows better than common practice about one of its adjusters. */
export interface AdjusterChange {
  readonly range?: readonly [from: number, to: number];
  /** In the amount's unit. */
  readonly sd?: number;
  readonly minutes?: number;
  /** False where this machine has no such place, or nobody gets at it. */
  readonly available?: boolean;
  /** Way of one turn of the screw by which it is set, mm; a joint that is pushed by hand has none. */
  readonly screwPitchMm?: number;
}

export function changedAdjuster(adjuster: Adjuster, change: AdjusterChange | undefined): Adjuster {
  if (!change) return adjuster;
  const { range = adjuster.range, sd = adjuster.sd, minutes = adjuster.minutes } = change;
  const screw = change.screwPitchMm;
  return {
    ...adjuster,
    ...{ range, sd, minutes },
    available: change.available ?? adjuster.available,
    ...(screw !== undefined && { turned: [{ by: "turn", words: "the screw that sets it", wayMm: screw }] }),
  };
}

/** Whether a screw can set it: something that a hand moves by an amount, without leaves. */
export function takesScrew({ id, kind, packing, moves }: Pick<Adjuster, "id" | "kind" | "packing" | "moves">): boolean {
  return kind === "add" && packing === "none" && moves !== null && !isStepsPerMm({ id });
}
