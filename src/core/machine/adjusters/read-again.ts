import type { ReadAgain } from "./adjuster.ts";

/** What has to be read again after a joint was open. Minutes: those of the checks. */
export const readAgain = {
  beamOverBed: { group: "beam over bed", checks: ["gap-under-beam"], minutes: 10 },
  axis: { group: "axis", checks: ["tram-sweep"], minutes: 15 },
  frame: { group: "frame", checks: ["stop-gaps", "square-sweep"], minutes: 21 },
  spacing: { group: "rails' spacing", checks: ["rail-spacing", "square-sweep"], minutes: 23 },
  bed: { group: "bed", checks: ["bed-touch"], minutes: 15 },
} as const satisfies Readonly<Record<string, ReadAgain>>;
