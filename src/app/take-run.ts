import { refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import type { UnitId } from "../core/base/units.ts";
import { unitFromCore } from "../core/base/units.ts";
import { checkById } from "../core/checks/catalogue.ts";
import type { Check, Setup, Station } from "../core/checks/check.ts";
import { estimateProblem } from "../core/fit/estimate.ts";
import { type Innovation, innovationOf } from "../core/fit/preview.ts";
import { layOutProblem } from "../core/fit/problem.ts";
import { acceptEntry, typedLeavesFromText } from "../core/instruments/accept-entry.ts";
import type { Entry } from "../core/instruments/entry.ts";
import type { Instrument } from "../core/instruments/instrument.ts";
import type { LogEvent } from "../logbook/events.ts";
import { type Session, sessionWith } from "./session.ts";
import type { Stamp } from "./stamp.ts";

/** One reading as it was typed, for a station by its key (or the next in order when there is none). */
export interface TypedReading {
  readonly station?: string;
  readonly text: string;
  readonly unit?: UnitId;
  /** Where it stood, for diagnostics: a line of a table, a place on the command line. */
  readonly line?: number;
  readonly file?: string;
}

export interface RunRequest {
  readonly check: string;
  readonly instrument: string | null;
  readonly objects: Readonly<Record<string, string>>;
  readonly options: Readonly<Record<string, string | number | boolean>>;
  readonly conditions: Readonly<Record<string, string | number>>;
  readonly readings: readonly TypedReading[];
}

/** A run that was taken: its events, the session with them, and how each reading sits with the rest. */
export interface TakenRun {
  readonly events: readonly LogEvent[];
  readonly session: Session;
  readonly check: Check;
  readonly readings: readonly {
    readonly id: string;
    readonly station: Station;
    readonly innovation: Innovation | null;
  }[];
}

/** Turns what was typed into events, or refuses all of it with every reason at once; nothing is kept of a part. */
export function takeRun(session: Session, stamp: Stamp, request: RunRequest, verdicts = true): Outcome<TakenRun> {
  const check = checkById(request.check);
  if (!check) return refuse(refusal("check-unknown", {}, { check: request.check, meant: "" }));
  const instrument =
    request.instrument === null ? null : (session.timeline.instruments.get(request.instrument) ?? null);
  if (request.instrument !== null && !instrument) {
    const listed = [...session.timeline.instruments.keys()].join(", ");
    return refuse(refusal("instrument-unknown", {}, { instrument: request.instrument, listed, meant: "" }));
  }
  const begun = stamp.event("run-begun", {
    run: "",
    check: check.id,
    instrument: request.instrument,
    ...(Object.keys(request.objects).length > 0 && { objects: request.objects }),
    ...(Object.keys(request.options).length > 0 && { options: request.options }),
    ...(Object.keys(request.conditions).length > 0 && { conditions: request.conditions }),
  } as never);
  const run = begun.id.slice(-12);
  const events: LogEvent[] = [{ ...begun, run } as LogEvent];
  // The set-up is tried before the readings: a wrong choice is told as what it is.
  const opened = sessionWith(session, events);
  if (!opened.ok) return opened;
  const setup: Setup = { machine: session.machine, options: request.options, instrument };
  const stations = check.stations(setup);
  const problems = [];
  const taken: { id: string; station: Station }[] = [];
  let next = 0;
  for (const typed of request.readings) {
    const where = {
      ...(typed.file !== undefined && { file: typed.file }),
      ...(typed.line !== undefined && { line: typed.line }),
    };
    const station = typed.station ?? stations[next]?.key;
    if (station === undefined) {
      problems.push(refusal("readings-too-many", where, { check: check.id, count: stations.length }));
      break;
    }
    if (typed.station === undefined) next += 1;
    if (typed.text === "-" || typed.text === "") continue;
    const fields = readingFields(check, instrument, typed, where);
    if (!fields.ok) {
      problems.push(...fields.diagnostics);
      continue;
    }
    const event = stamp.event("reading-taken", { run, station, ...fields.value } as never);
    events.push(event);
    taken.push({
      id: event.id,
      station: stations.find(({ key }) => key === station) ?? { key: station, words: station, at: [0, 0, 0] },
    });
  }
  if (problems.length > 0) return refuse(...problems);
  const done = sessionWith(session, events);
  if (!done.ok) return done;
  const readings = taken.map(({ id, station }, index) => ({
    id,
    station,
    index,
    innovation: null as Innovation | null,
  }));
  if (verdicts && check.kind === "geometric") judgeReadings(session, done.value, readings);
  return succeed({ events, session: done.value, check, readings }, done.diagnostics);
}

/** Each reading against everything before it, in the order taken. */
function judgeReadings(
  before: Session,
  after: Session,
  readings: { id: string; innovation: Innovation | null }[],
): void {
  const old = new Set(before.timeline.readings.map(({ id }) => id));
  const added = after.timeline.readings.filter(({ id }) => !old.has(id));
  let known = [...before.timeline.readings];
  let estimate = estimateProblem(layOutProblem(after.machine, { ...after.timeline, readings: known }));
  for (const reading of added) {
    known = [...known, reading];
    const timeline = { ...after.timeline, readings: known };
    const judged = readings.find(({ id }) => id === reading.id);
    if (judged) judged.innovation = innovationOf(estimate, timeline, reading);
    estimate = estimateProblem(layOutProblem(after.machine, timeline));
  }
}

type Fields = Record<string, unknown>;

function readingFields(
  check: Check,
  instrument: Instrument | null,
  typed: TypedReading,
  where: object,
): Outcome<Fields> {
  const { text } = typed;
  const verdict = /^(yes|y|good|pass|passed)$/i.test(text)
    ? true
    : /^(no|n|bad|fail|failed)$/i.test(text)
      ? false
      : null;
  if (check.quantity === "verdict") {
    if (verdict === null) return refuse(refusal("entry-needs-verdict", where));
    return succeed({ passed: verdict });
  }
  if (!instrument) {
    return refuse(refusal("run-needs-instrument", where, { check: check.id, expected: check.instruments.join(", ") }));
  }
  const parts = check.entries ? text.split(":") : [text];
  const usualUnit = typed.unit;
  const accepted = [];
  for (const part of parts) {
    // A gap that is shut needs no leaf: nothing is typed as 0.
    if (Number(part.replace(",", ".")) === 0 && instrument.family === "feeler") {
      accepted.push({ entry: { form: "value", value: 0 } as Entry, unit: usualUnit ?? "mm" });
      continue;
    }
    const options = { where, ...(usualUnit !== undefined && { usualUnit }) };
    const leaves = instrument.measures === "length" && instrument.leaves;
    const unit = usualUnit ?? (instrument.markedIn as UnitId | undefined) ?? "mm";
    const entry = acceptEntry(
      instrument,
      leaves ? typedLeavesFromText(part, unit) : { form: "value", text: part },
      options,
    );
    if (!entry.ok) return entry;
    accepted.push(entry.value);
  }
  const unit = (accepted[0].unit ?? usualUnit ?? "mm") as UnitId;
  if (accepted.length === 1) return succeed({ unit, ...entryFields(accepted[0].entry, unit) });
  return succeed({ unit, first: entryFields(accepted[0].entry, unit), second: entryFields(accepted[1].entry, unit) });
}

/** Numbers go into the logbook in the unit in which they were typed. */
function entryFields(entry: Entry, unit: UnitId): Fields {
  const typed = (value: number) => Number(unitFromCore(value, unit).toPrecision(12));
  switch (entry.form) {
    case "value":
      return { value: typed(entry.value) };
    case "interval":
      return { goes: typed(entry.goes), doesNotGo: typed(entry.doesNotGo) };
    case "atLeast":
      return { goes: typed(entry.bound) };
    case "atMost":
      return { doesNotGo: typed(entry.bound) };
    case "verdict":
      return { passed: entry.passed };
  }
}
