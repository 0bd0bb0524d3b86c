import { type Diagnostic, refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { type UnitId, unitFromCore, unitFromSpelling, unitsOfQuantity } from "../core/base/units.ts";
import { checkById } from "../core/checks/catalogue.ts";
import type { Check, Setup, Station } from "../core/checks/check.ts";
import { estimateProblem } from "../core/fit/estimate.ts";
import { type Innovation, innovationOf } from "../core/fit/preview.ts";
import { layOutProblem } from "../core/fit/problem.ts";
import { acceptEntry, typedLeavesFromText } from "../core/instruments/accept-entry.ts";
import type { Entry } from "../core/instruments/entry.ts";
import { type Instrument, inUse, readBothWays } from "../core/instruments/instrument.ts";
import { bestValue } from "../core/instruments/reading-uncertainty.ts";
import type { LogEvent } from "../logbook/events.ts";
import { nearestWord } from "../logbook/nearest-word.ts";
import { instrumentKinds } from "./catalog.ts";
import { type Session, sessionWith } from "./session.ts";
import type { Stamp } from "./stamp.ts";

/** One reading as it was typed, for a station by its key (or the next in order when there is none). */
export interface TypedReading {
  readonly station?: string;
  readonly text: string;
  /** As it was spelled: "in", "inch" … */
  readonly unit?: string;
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
    /** Of a look, a push or a count: whether it passes; null where nothing judges it. */
    readonly passed: boolean | null;
  }[];
}

/** Turns what was typed into events, or refuses all of it with every reason at once; nothing is kept of a part. */
export function takeRun(session: Session, stamp: Stamp, request: RunRequest, verdicts = true): Outcome<TakenRun> {
  const check = checkById(request.check);
  if (!check) return refuse(refusal("check-unknown", {}, { check: request.check, meant: "" }));
  const instrument =
    request.instrument === null ? null : (session.timeline.instruments.get(request.instrument) ?? null);
  if (request.instrument !== null && !instrument) {
    return refuse(instrumentNotThere(session, request.instrument));
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
  const problems: Diagnostic[] = [];
  const remarks: Diagnostic[] = [];
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
    const told = fields.diagnostics.map((diagnostic) => atStation(diagnostic, station));
    if (!fields.ok) {
      problems.push(...told);
      continue;
    }
    remarks.push(...told);
    const event = stamp.event("reading-taken", { run, station, ...fields.value } as never);
    events.push(event);
    taken.push({
      id: event.id,
      station: stations.find(({ key }) => key === station) ?? { key: station, words: station, at: [0, 0, 0] },
    });
  }
  if (problems.length > 0) return refuse(...problems);
  if (taken.length === 0) return refuse(refusal("nothing-given", {}, { check: check.id }));
  const done = sessionWith(session, events);
  if (!done.ok) return done;
  const readings = taken.map(({ id, station }, index) => ({
    id,
    station,
    index,
    innovation: null as Innovation | null,
    passed: passedBy(check, setup, station, id, done.value),
  }));
  if (verdicts && check.kind === "geometric") judgeReadings(session, done.value, readings);
  return succeed({ events, session: done.value, check, readings }, [...remarks, ...done.diagnostics]);
}

/** A refusal for an id that none of the user's instruments has, with those that there are. */
export function instrumentNotThere({ timeline }: Session, id: string): Diagnostic {
  const own = inUse(timeline.instruments.values());
  // A family or a kind names the one that is meant where there is one of it.
  const meant = own.find(({ family }) => family === id)?.id ?? nearestWord(id, timeline.instruments.keys()) ?? "";
  const kind = instrumentKinds.has(id) ? id : "KIND";
  const listed = own.map((instrument) => instrument.id).join(", ");
  return refusal("instrument-not-there", {}, { instrument: id, listed, meant, kind });
}

/** What is wrong with a reading, said with the station that it was for. */
function atStation(diagnostic: Diagnostic, station: string): Diagnostic {
  const { field } = diagnostic.where;
  return {
    ...diagnostic,
    where: { ...diagnostic.where, field: field === undefined ? station : `${station}, ${field}` },
  };
}

/** Of a look, a push or a count: whether the reading passes; null where nothing judges it. */
export function passedBy(
  check: Check,
  setup: Setup,
  station: Station,
  id: string,
  { timeline }: Session,
): boolean | null {
  const reading = timeline.readings.find((candidate) => candidate.id === id);
  if (check.kind !== "condition" || !reading) return null;
  const [entry] = reading.entries;
  if (entry.form === "verdict") return entry.passed;
  return check.passes === null ? null : check.passes(bestValue(entry), station, setup);
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

export type Fields = Record<string, unknown>;

/** What one typed reading is as fields of its event, or why the instrument cannot have shown it. */
export function readingFields(
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
  const named = unitAsSpelled(check, typed.unit, where);
  if (!named.ok) return named;
  const usualUnit = named.value;
  const accepted = [];
  const remarks: Diagnostic[] = [];
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
      check.bothWays ? readBothWays(instrument) : instrument,
      leaves ? typedLeavesFromText(part, unit) : { form: "value", text: part },
      options,
    );
    if (!entry.ok) return entry;
    accepted.push(entry.value);
    remarks.push(...entry.diagnostics);
  }
  const unit = (accepted[0].unit ?? usualUnit ?? "mm") as UnitId;
  if (accepted.length === 1) return succeed({ unit, ...entryFields(accepted[0].entry, unit) }, remarks);
  if (accepted.length > 2) return refuse(refusal("reading-parts-too-many", where, { text, check: check.id }));
  const [first, second] = accepted.map(({ entry }) => entryFields(entry, unit));
  return succeed({ unit, first, second }, remarks);
}

/** The unit that stands for all readings of a table or a command, or the reason why it cannot. */
function unitAsSpelled(check: Check, spelled: string | undefined, where: object): Outcome<UnitId | undefined> {
  if (spelled === undefined) return succeed(undefined);
  const { quantity } = check;
  if (quantity === "verdict" || quantity === "count") return refuse(refusal("reading-without-unit", where));
  const unit = unitFromSpelling(spelled, quantity);
  if (unit?.quantity === quantity) return succeed(unit.id);
  const expected = unitsOfQuantity(quantity)
    .map(({ id }) => id)
    .join(", ");
  return refuse(
    unit === undefined
      ? refusal("unit-not-known", where, { text: spelled, expected })
      : refusal("unit-of-other-quantity", where, { text: spelled, typed: unit.quantity, asked: quantity, expected }),
  );
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
