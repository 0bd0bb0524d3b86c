import { type Diagnostic, refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { coreFromUnit, type UnitId, unitFromCore } from "../core/base/units.ts";
import { checkById } from "../core/checks/catalogue.ts";
import type { GeometricCheck, Station } from "../core/checks/check.ts";
import { estimateTimeline } from "../core/fit/estimate.ts";
import { adjustersForTimeline } from "../core/fit/hand-scatter.ts";
import { packingNow } from "../core/fit/packing-now.ts";
import { type Innovation, innovationOf } from "../core/fit/preview.ts";
import { machineOfRun } from "../core/fit/run-machine.ts";
import { stationFromKey } from "../core/fit/station-key.ts";
import type { Adjuster } from "../core/machine/adjusters/adjuster.ts";
import type { LogEvent } from "../logbook/events.ts";
import { nearestWord } from "../logbook/nearest-word.ts";
import { type Session, sessionWith } from "./session.ts";
import type { Stamp } from "./stamp.ts";
import { beginRun, type RunSetup, runThere } from "./take-reading.ts";
import { type Fields, instrumentNotThere, readingFields } from "./take-run.ts";

export interface MoveRequest {
  readonly adjuster: string;
  /** From where it stood, in the adjuster's unit; what is taken up anew needs none. */
  readonly amount: number | null;
  /** What was advised. */
  readonly planned?: number;
  readonly leaves?: { readonly laidMm: readonly number[]; readonly takenOutMm: readonly number[] };
  readonly gauge: GaugeRequest | null;
  readonly note?: string;
}

/** What a gauge read while the joint was made fast, as it was typed. */
export interface GaugeRequest {
  /** The run whose zero it went on with, or how a new one is set up. */
  readonly into: string | RunSetup;
  readonly station: string;
  readonly unit?: string;
  readonly loose?: string;
  readonly nipped?: string;
  /** Also a reading like any other. */
  readonly final?: string;
  readonly other?: OtherReading;
}

/** In a run with a free zero one reading says nothing: what the last one is held against, as it was typed. */
export interface OtherReading {
  readonly station: string;
  readonly text: string;
  /** Read before the joint was opened, or with the last one. */
  readonly isBefore: boolean;
}

export interface NotedMove {
  readonly events: readonly LogEvent[];
  readonly session: Session;
  /** As it is known after the move, with what its slips have taught. */
  readonly adjuster: Adjuster;
  readonly amount: number;
  /** What lies there now, mm; null where nothing is packed. */
  readonly packingMm: number | null;
  /** The last reading, and how it sits with what the move should have done; null where there is none. */
  readonly reading: { readonly id: string; readonly station: Station; readonly innovation: Innovation | null } | null;
}

const parts = ["loose", "nipped", "final"] as const;

/**
 * Notes a move that has been made: the move itself, and after it the last reading of the gauge as one of its run, which
 * begins before the move where it is a new one; what the last reading is held against stands before the move or behind
 * it, and behind the homing that comes first where only that brings the move about. Refused whole, with every reason, where something of it cannot be.
 */
export function noteMove(session: Session, stamp: Stamp, request: MoveRequest): Outcome<NotedMove> {
  const { machine, timeline } = session;
  const adjusters = adjustersForTimeline(machine, timeline).filter(({ kind }) => kind !== "skim");
  const adjuster = adjusters.find(({ id }) => id === request.adjuster);
  if (adjuster === undefined) {
    const meant = nearestWord(
      request.adjuster,
      adjusters.map(({ id }) => id),
    );
    return refuse(refusal("adjuster-unknown", {}, { adjuster: request.adjuster, meant: meant ?? "" }));
  }
  const amount = amountOf(session, adjuster, request);
  if (!amount.ok) return amount;
  const events: LogEvent[] = [];
  const gauge = request.gauge === null ? null : readGauge(session, stamp, request.gauge, events);
  if (gauge?.ok === false) return gauge;
  const { planned, leaves, note } = request;
  const other = gauge?.value.other ?? null;
  const takeOther = () => other !== null && events.push(stamp.event("reading-taken", other as never));
  if (request.gauge?.other?.isBefore) takeOther();
  events.push(
    stamp.event("move-made", {
      adjuster: adjuster.id,
      amount: amount.value,
      ...(planned !== undefined && { planned }),
      ...(leaves !== undefined && { leaves }),
      ...(gauge !== null && { gauge: gauge.value.fields }),
      ...(note !== undefined && { note }),
    } as never),
  );
  // Where only a homing brings it about, what was read after it was read in a homing of its own.
  if (gauge !== null && adjuster.homesTo !== undefined) events.push(stamp.event("homed", {} as never));
  if (!request.gauge?.other?.isBefore) takeOther();
  const moved = sessionWith(session, events);
  if (!moved.ok) return moved;
  const taken = gauge?.value.final ? stamp.event("reading-taken", gauge.value.final as never) : null;
  if (taken !== null) events.push(taken);
  const done = taken === null ? moved : sessionWith(session, events);
  if (!done.ok) return done;
  const after = done.value.timeline;
  const reading = taken && after.readings.find(({ id }) => id === taken.id);
  return succeed(
    {
      events,
      session: done.value,
      adjuster: adjustersForTimeline(machine, after).find(({ id }) => id === adjuster.id) ?? adjuster,
      amount: amount.value,
      packingMm: packingNow(machine, after).get(adjuster.id) ?? null,
      reading:
        reading && gauge
          ? {
              id: reading.id,
              station: gauge.value.station,
              innovation: innovationOf(estimateTimeline(machine, moved.value.timeline), after, reading),
            }
          : null,
    },
    [...(gauge?.diagnostics ?? []), ...done.diagnostics],
  );
}

/** How far it was moved. Nobody can have moved it further than it goes, nor taken out what does not lie there. */
function amountOf(
  session: Session,
  { id, kind, unit, range, packing }: Adjuster,
  request: MoveRequest,
): Outcome<number> {
  const { amount } = request;
  if (amount === null) {
    return kind === "assign" ? succeed(1) : refuse(refusal("amount-missing", {}, { adjuster: id, unit }));
  }
  const lies = packing === "none" ? 0 : (packingNow(session.machine, session.timeline).get(id) ?? 0);
  const [from, to] = [range[0] - lies, range[1] - lies];
  if (kind !== "assign" && (amount < from - 1e-9 || amount > to + 1e-9)) {
    const rounded = (value: number) => Number(value.toFixed(4));
    const data = {
      adjuster: id,
      amount,
      from: rounded(from),
      to: rounded(to),
      unit,
      packed: packing === "none" ? 0 : 1,
    };
    return refuse(refusal("amount-out-of-reach", {}, { ...data, lies }));
  }
  return succeed(amount);
}

interface ReadGauge {
  /** As they stand in the move. */
  readonly fields: Fields;
  /** The last reading as one of its run; null where it was not read. */
  readonly final: Fields | null;
  readonly other: Fields | null;
  readonly station: Station;
}

/** What was typed of the gauge, each part as its instrument can show it. Adds the beginning of the run where it is new. */
function readGauge(session: Session, stamp: Stamp, request: GaugeRequest, events: LogEvent[]): Outcome<ReadGauge> {
  const begun =
    typeof request.into === "string" ? runThere(session, request.into) : beginRun(stamp, request.into, events);
  if (!begun.ok) return begun;
  const { run, setup } = begun.value;
  // A wrong set-up is told as what it is, before its readings.
  const opened = sessionWith(session, events);
  if (!opened.ok) return opened;
  const check = checkById(setup.check);
  if (check?.kind !== "geometric") return refuse(refusal("gauge-without-geometry", {}, { check: setup.check }));
  const instrument = setup.instrument === null ? null : (session.timeline.instruments.get(setup.instrument) ?? null);
  if (setup.instrument !== null && !instrument) return refuse(instrumentNotThere(session, setup.instrument));
  const { station: key, unit: typedUnit, other } = request;
  const stationOf = (text: string) =>
    stationFromKey(check, { machine: machineOfRun(session.machine, setup), options: setup.options, instrument }, text);
  const station = stationOf(key);
  if (station === null) return refuse(stationUnknown(check, session, setup, key));
  if (other && stationOf(other.station) === null) return refuse(stationUnknown(check, session, setup, other.station));
  const problems: Diagnostic[] = [];
  const remarks: Diagnostic[] = [];
  const read = new Map<(typeof parts)[number], Fields>();
  const fieldsFrom = (text: string | undefined, field: string) => {
    if (text === undefined) return null;
    const typed = { text, ...(typedUnit !== undefined && { unit: typedUnit }) };
    const fields = readingFields(check, instrument, typed, { field });
    (fields.ok ? remarks : problems).push(...fields.diagnostics);
    return fields;
  };
  const otherFields = fieldsFrom(other?.text, "other");
  for (const part of parts) {
    const text = request[part];
    const fields = fieldsFrom(text, part);
    if (text === undefined || !fields?.ok) continue;
    if ("first" in fields.value && part !== "final") problems.push(refusal("gauge-double", {}, { text }));
    read.set(part, fields.value);
  }
  if (problems.length > 0) return refuse(...problems);
  if (read.size === 0) return refuse(refusal("gauge-unread", {}));
  const unit = [...read.values()][0].unit as UnitId;
  const final = read.get("final");
  return succeed(
    {
      fields: { run, station: key, unit, ...Object.fromEntries(partsIn(unit, read)) },
      final: final === undefined ? null : { run, station: key, ...final },
      other: other && otherFields?.ok ? { run, station: other.station, ...otherFields.value } : null,
      station,
    },
    remarks,
  );
}

/** Parts in one unit; two numbers of one station are no single one, and stand as a reading only. */
function partsIn(unit: UnitId, read: ReadonlyMap<string, Fields>): readonly (readonly [string, Fields])[] {
  return [...read].flatMap(([part, { unit: own, ...numbers }]) => {
    if ("first" in numbers) return [];
    if (own === unit) return [[part, numbers]];
    const turned = (value: unknown) =>
      Number(unitFromCore(coreFromUnit(value as number, own as UnitId), unit).toPrecision(12));
    return [[part, Object.fromEntries(Object.entries(numbers).map(([name, value]) => [name, turned(value)]))]];
  });
}

function stationUnknown(check: GeometricCheck, session: Session, setup: RunSetup, station: string): Diagnostic {
  const keys = check
    .stations({ machine: session.machine, options: setup.options, instrument: null })
    .map(({ key }) => key);
  const ownPlaces = check.stationAt === undefined ? 0 : 1;
  const data = {
    station,
    check: check.id,
    listed: keys.join(" | "),
    ownPlaces,
    meant: nearestWord(station, keys) ?? "",
  };
  return refusal("station-unknown", {}, data);
}
