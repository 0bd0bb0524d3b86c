import type { Happening, Reading, Timeline } from "./timeline.ts";

const DAY = 86_400_000;
const MONTH = 30.44 * DAY;

/** When a reading follows the last by this much, the machine may have drifted. */
export const DRIFT_AFTER_MS = 7 * DAY;

/** Readings between which nothing is known to have changed the machine. */
export interface Epoch {
  readonly startsAt: number;
  /** What ended the epoch before, in order of time; empty for the first and after a plain gap. */
  readonly changes: readonly Happening[];
  /** Months of drift since the epoch before. */
  readonly driftMonths: number;
  readonly readings: readonly EpochReading[];
  /** Number of the homing in force at the epoch's end. */
  readonly homing: number;
}

export interface EpochReading {
  readonly reading: Reading;
  /** Homings are numbered from 0, the one in force before any was recorded. */
  readonly homing: number;
}

/**
 * Cuts the timeline where the machine changed: at a move, a skim, a knock, a transport, a new part; and where a reading
 * follows the last by a week or more (the whole gap then counts as drift, once). Only the readings in `used` take part.
 * Order is by the events' own time, ties by id.
 */
export function epochsFromTimeline(timeline: Timeline, used: readonly Reading[]): readonly Epoch[] {
  type Item = { at: number; id: string; reading?: Reading; happening?: Happening };
  const items: Item[] = [
    ...used.map((reading) => ({ at: reading.at, id: reading.id, reading })),
    ...timeline.happenings.map((happening) => ({ at: happening.at, id: happening.id, happening })),
  ];
  items.sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
  const epochs: Draft[] = [newDraft(items[0]?.at ?? 0)];
  let homing = 0;
  let lastReadingAt: number | null = null;
  for (const { at, reading, happening } of items) {
    let current = epochs[epochs.length - 1];
    if (happening?.kind === "homed" || happening?.kind === "powered-on") {
      homing += 1;
    } else if (happening) {
      // A skim cuts what the machine is at that moment: what was changed just before it is an epoch of its own.
      const isCutInto = happening.kind === "skimmed" && current.changes.length > 0;
      if (current.readings.length > 0 || isCutInto) epochs.push(newDraft(at));
      current = epochs[epochs.length - 1];
      current.changes.push(happening);
    } else if (reading) {
      const gap = lastReadingAt === null ? 0 : at - lastReadingAt;
      if (gap >= DRIFT_AFTER_MS) {
        if (current.readings.length > 0) epochs.push(newDraft(at));
        current = epochs[epochs.length - 1];
        current.driftMonths += gap / MONTH;
      }
      current.readings.push({ reading, homing });
      lastReadingAt = at;
    }
    current.homing = homing;
    epochs[epochs.length - 1].homing = homing;
  }
  return epochs;
}

interface Draft {
  readonly startsAt: number;
  readonly changes: Happening[];
  driftMonths: number;
  readonly readings: EpochReading[];
  homing: number;
}

function newDraft(startsAt: number): Draft {
  return { startsAt, changes: [], driftMonths: 0, readings: [], homing: 0 };
}
