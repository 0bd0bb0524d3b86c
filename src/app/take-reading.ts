import { refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { checkById } from "../core/checks/catalogue.ts";
import type { Check, Setup, Station } from "../core/checks/check.ts";
import type { Estimate } from "../core/fit/estimate.ts";
import { type Innovation, innovationOf } from "../core/fit/preview.ts";
import { machineOfRun } from "../core/fit/run-machine.ts";
import { stationFromKey } from "../core/fit/station-key.ts";
import type { Run } from "../core/fit/timeline.ts";
import type { LogEvent } from "../logbook/events.ts";
import { type Session, sessionWith } from "./session.ts";
import type { Stamp } from "./stamp.ts";
import { instrumentNotThere, passedBy, type RunRequest, readingFields, type TypedReading } from "./take-run.ts";

/** How a run is set up, before anything of it has been read. */
export type RunSetup = Omit<RunRequest, "readings"> & Pick<Run, "reach">;

/** One reading, its event, the session with it, and how it sits with everything before it. */
export interface TakenReading {
  /** The reading; where it is the first of its run, what begins the run stands before it. */
  readonly events: readonly LogEvent[];
  readonly session: Session;
  readonly run: string;
  readonly reading: string;
  readonly check: Check;
  readonly station: Station;
  /** Null where the reading does not bear on the geometry. */
  readonly innovation: Innovation | null;
  readonly passed: boolean | null;
}

/**
 * Takes one reading into a run that has been begun, or into a new one; what contradicts the instrument or the logbook is
 * refused. `estimate` is that of the session as it is.
 */
export function takeReading(
  session: Session,
  estimate: Estimate,
  stamp: Stamp,
  asked: { readonly into: string | RunSetup; readonly station: string; readonly typed: TypedReading },
): Outcome<TakenReading> {
  const events: LogEvent[] = [];
  const begun = typeof asked.into === "string" ? runThere(session, asked.into) : beginRun(stamp, asked.into, events);
  if (!begun.ok) return begun;
  const { run, setup: of } = begun.value;
  const check = checkById(of.check);
  if (!check) return refuse(refusal("check-unknown", {}, { check: of.check, meant: "" }));
  const instrument = of.instrument === null ? null : (session.timeline.instruments.get(of.instrument) ?? null);
  if (of.instrument !== null && !instrument) return refuse(instrumentNotThere(session, of.instrument));
  const fields = readingFields(check, instrument, asked.typed, {});
  if (!fields.ok) return fields;
  const event = stamp.event("reading-taken", { run, station: asked.station, ...fields.value } as never) as LogEvent;
  events.push(event);
  const done = sessionWith(session, events);
  if (!done.ok) return done;
  const setup: Setup = { machine: machineOfRun(session.machine, of), options: of.options, instrument };
  const station = stationFromKey(check, setup, asked.station);
  const reading = done.value.timeline.readings.find(({ id }) => id === event.id);
  return succeed(
    {
      events,
      session: done.value,
      run,
      reading: event.id,
      check,
      station: station ?? { key: asked.station, words: asked.station, at: [0, 0, 0] },
      innovation: check.kind === "geometric" && reading ? innovationOf(estimate, done.value.timeline, reading) : null,
      passed: station ? passedBy(check, setup, station, event.id, done.value) : null,
    },
    [...fields.diagnostics, ...done.diagnostics],
  );
}

export function runThere(session: Session, id: string): Outcome<{ readonly run: string; readonly setup: RunSetup }> {
  const run = session.timeline.runs.find((candidate) => candidate.id === id);
  if (!run) return refuse(refusal("run-unknown", {}, { run: id, meant: "" }));
  return succeed({ run: id, setup: run as unknown as RunSetup });
}

export function beginRun(
  stamp: Stamp,
  setup: RunSetup,
  events: LogEvent[],
): Outcome<{ readonly run: string; readonly setup: RunSetup }> {
  const filled = (record: object) => Object.keys(record).length > 0;
  const begun = stamp.event("run-begun", {
    run: "",
    check: setup.check,
    instrument: setup.instrument,
    ...(filled(setup.objects) && { objects: setup.objects }),
    ...(filled(setup.options) && { options: setup.options }),
    ...(filled(setup.conditions) && { conditions: setup.conditions }),
  } as never) as LogEvent;
  const run = begun.id.slice(-12);
  events.push({ ...begun, run } as LogEvent);
  return succeed({ run, setup });
}
