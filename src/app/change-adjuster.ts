import type { AdjusterChange } from "../core/machine/adjusters/change.ts";
import type { LogEvent } from "../logbook/events.ts";
import type { Session } from "./session.ts";
import type { Stamp } from "./stamp.ts";

/** Figures of the user's own for one adjuster; "usual" forgets those that were before. */
export type AdjusterFigures = AdjusterChange & { readonly usual?: boolean };

/** The event that changes an adjuster: figures that are given take the place of those that were, the others stay. */
export function changeAdjuster(
  { timeline }: Pick<Session, "timeline">,
  stamp: Stamp,
  adjuster: string,
  { usual = false, ...given }: AdjusterFigures,
): LogEvent {
  const before = usual ? {} : (timeline.adjusterChanges.get(adjuster) ?? {});
  const { range, sd, minutes, available, screwPitchMm } = { ...before, ...given };
  return stamp.event("adjuster-changed", {
    adjuster,
    ...(range !== undefined && { range: { from: range[0], to: range[1] } }),
    ...(sd !== undefined && { standardUncertainty: sd }),
    ...(minutes !== undefined && { minutes }),
    ...(available !== undefined && { available }),
    ...(screwPitchMm !== undefined && { screwPitchMm }),
  } as never);
}
