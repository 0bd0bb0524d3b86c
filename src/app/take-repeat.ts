import { type Outcome, succeed } from "../core/base/outcome.ts";
import { type Estimate, estimateTimeline } from "../core/fit/estimate.ts";
import { innovationOf } from "../core/fit/preview.ts";
import { layOutProblem } from "../core/fit/problem.ts";
import { type BesideRepeat, besideRepeats } from "../core/fit/repeats.ts";
import type { Timeline } from "../core/fit/timeline.ts";
import type { LogEvent } from "../logbook/events.ts";
import type { Session } from "./session.ts";
import type { Stamp } from "./stamp.ts";
import { type TakenReading, takeReading } from "./take-reading.ts";

/** A reading that repeats others of its station, held against these by what their tool lets repeats differ. */
export interface TakenRepeat {
  /** Its innovation is against all the rest, the readings that it repeats left out. */
  readonly taken: TakenReading;
  /**
   * - beside: it contradicts none of them;
   * - same: it says the same as one that stood far from the rest, and so does it;
   * - replaces: it sits with the rest, and those that it contradicts do not;
   * - agrees: it says the same as one of them and contradicts the others;
   * - differs: nothing tells yet which of them is right.
   */
  readonly standing: "beside" | "same" | "replaces" | "agrees" | "differs";
  /** How far it is from the one that it contradicts most, in the check's unit; 0 where there is none. */
  readonly apart: number;
  /** Which of them are withdrawn for it, each with its reason. */
  readonly withdrawals: readonly Extract<LogEvent, { kind: "reading-withdrawn" }>[];
}

/** The readings that the next one at this station repeats: taken there last, and nowhere else in the run since. */
export function readingsInARow({ readings }: Timeline, run: string, station: string): readonly string[] {
  const ofRun = readings.filter((reading) => reading.run === run && reading.withdrawn === null);
  const since = ofRun.map((reading) => reading.station === station).lastIndexOf(false);
  return ofRun.slice(since + 1).map(({ id }) => id);
}

/**
 * Takes a reading of a station that has just been read, and says which of its readings stand.
 *
 * @param earlier ids of what it repeats, one at least
 * @param wasFar whether the last of them stood far from the rest, so that this one was asked for
 */
export function takeRepeat(
  session: Session,
  stamp: Stamp,
  asked: Parameters<typeof takeReading>[3],
  earlier: readonly string[],
  wasFar: boolean,
): Outcome<TakenRepeat> {
  const rest = estimateTimeline(session.machine, without(session.timeline, new Set(earlier)));
  const took = takeReading(session, rest, stamp, asked);
  if (!took.ok) return took;
  const taken = took.value;
  const { timeline, machine } = taken.session;
  const observation = layOutProblem(machine, timeline).observations.find(({ values }) =>
    values.some(({ reading }) => reading.id === taken.reading),
  );
  const beside = (observation ? besideRepeats(observation, taken.reading) : []).filter(({ reading }) =>
    earlier.includes(reading.id),
  );
  const against = beside.filter(({ contradicts }) => contradicts);
  const standing = standingOf(beside, taken.innovation?.fits === "far", wasFar, () =>
    against.every(({ reading }) => isFar(rest, timeline, earlier, reading.id)),
  );
  const because = reasons[standing];
  return succeed(
    {
      taken,
      standing,
      apart: Math.max(0, ...(against.length > 0 ? against : beside).map(({ apart }) => Math.abs(apart))),
      withdrawals:
        because === null
          ? []
          : against.map(
              ({ reading }) =>
                stamp.event("reading-withdrawn", {
                  reading: reading.id,
                  because,
                } as never) as TakenRepeat["withdrawals"][0],
            ),
    },
    took.diagnostics,
  );
}

const reasons: Readonly<Record<TakenRepeat["standing"], string | null>> = {
  beside: null,
  same: null,
  replaces: "Read again at once: the later reading sits with the rest, this one stood far off.",
  agrees: "Read again at once: two readings agree, this one stood apart from them.",
  differs: null,
};

function standingOf(
  beside: readonly BesideRepeat[],
  far: boolean,
  wasFar: boolean,
  areFar: () => boolean,
): TakenRepeat["standing"] {
  const same = beside.some(({ isSame }) => isSame);
  const contradicts = beside.some((one) => one.contradicts);
  if (contradicts) return same ? "agrees" : !far && areFar() ? "replaces" : "differs";
  if (!wasFar || !far) return "beside";
  return same ? "same" : "differs";
}

/** Whether one of the readings that were repeated stands far from the rest by itself. */
function isFar(rest: Estimate, timeline: Timeline, earlier: readonly string[], id: string): boolean {
  const alone = without(timeline, new Set(earlier.filter((other) => other !== id)));
  const reading = alone.readings.find((one) => one.id === id);
  return reading !== undefined && innovationOf(rest, alone, reading)?.fits === "far";
}

function without<T extends Timeline>(timeline: T, ids: ReadonlySet<string>): T {
  const readings = timeline.readings.map((reading) =>
    ids.has(reading.id) ? { ...reading, withdrawn: "held against the rest" } : reading,
  );
  return { ...timeline, readings };
}
