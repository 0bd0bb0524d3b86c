import { type Diagnostic, refusal } from "../core/base/diagnostic.ts";
import { coreFromUnit, type UnitId, unitOf, unitsOfQuantity } from "../core/base/units.ts";
import type { ReadingQuantity } from "../core/checks/check.ts";
import type { Reading } from "../core/fit/timeline.ts";
import type { Entry } from "../core/instruments/entry.ts";
import { type Instrument, readBothWays } from "../core/instruments/instrument.ts";
import { eventsOf, type Timed } from "./event-order.ts";
import type { EventOf } from "./events.ts";
import type { Known, KnownCheck } from "./known.ts";
import { type RunContext, runUnknown } from "./replay-runs.ts";
import type { Report } from "./report.ts";

type ReadingTaken = EventOf<"reading-taken">;

/** Readings in the order in which they were taken, in core units; what cannot have been read is reported. */
export function readingsFromEvents(
  ordered: readonly Timed[],
  contexts: ReadonlyMap<string, RunContext>,
  known: Known,
  report: Report,
): readonly Reading[] {
  const taken = eventsOf(ordered, "reading-taken");
  const withdrawn = withdrawnFromEvents(ordered, taken, report);
  const stationProblems = new Map<string, (station: string) => Diagnostic | null>();
  const readings: Reading[] = [];
  for (const { event, at } of taken) {
    const { id, run, station } = event;
    const context = contexts.get(run);
    if (context === undefined) {
      report.add(event, [runUnknown(run, contexts)]);
      continue;
    }
    // What is wrong with the run has been said there; its readings would only repeat it.
    if (context.check === null) continue;
    let problemOf = stationProblems.get(run);
    if (problemOf === undefined) {
      problemOf = known.stationProblems(context.run, context.instrument);
      stationProblems.set(run, problemOf);
    }
    const misplaced = problemOf(station);
    if (misplaced !== null) report.add(event, [misplaced]);
    const entries = entriesFromReading(event, context, known, report);
    if (entries !== null) readings.push({ id, run, at, station, entries, withdrawn: withdrawn.get(id) ?? null });
  }
  return readings;
}

function withdrawnFromEvents(
  ordered: readonly Timed[],
  taken: readonly Timed<ReadingTaken>[],
  report: Report,
): ReadonlyMap<string, string | null> {
  const changes = eventsOf(ordered, "reading-withdrawn", "reading-restored");
  // Few are ever withdrawn, so it is those that are looked up among the readings and not the other way round.
  const named = new Set(changes.map(({ event }) => event.reading));
  const found = new Set<string>();
  if (named.size > 0) for (const { event } of taken) if (named.has(event.id)) found.add(event.id);
  const withdrawn = new Map<string, string | null>();
  for (const { event } of changes) {
    const { reading } = event;
    if (!found.has(reading)) report.add(event, [refusal("reading-unknown", { field: "reading" }, { reading })]);
    else withdrawn.set(reading, event.kind === "reading-withdrawn" ? event.because : null);
  }
  return withdrawn;
}

/** A number as a gauge shows it in a run, in core units, and what is wrong with it; null where it is none at all. */
export function entryOfPart(
  part: NumberForms,
  unit: UnitId,
  { run, check, instrument }: RunContext,
  known: Known,
): { readonly entry: Entry | null; readonly problems: readonly Diagnostic[] } {
  const { quantity } = check!;
  if (quantity === "verdict") {
    return { entry: null, problems: [refusal("reading-is-verdict", {}, { check: run.check })] };
  }
  const unitProblem = problemOfUnit(unit, quantity);
  if (unitProblem !== null) return { entry: null, problems: [{ ...unitProblem, where: {} }] };
  const entry = entryFromForms(part, unit);
  const implausible = problemOfSize(part, entry, quantity, unit);
  if (implausible !== null) return { entry, problems: [implausible] };
  return { entry, problems: problemsAsRead(entry, check!, instrument, known) };
}

function entriesFromReading(
  event: ReadingTaken,
  { run, check, instrument }: RunContext,
  known: Known,
  report: Report,
): Reading["entries"] | null {
  const say = (code: "reading-is-verdict" | "reading-not-verdict" | "reading-not-double", field: string): null => {
    report.add(event, [refusal(code, { field }, { check: run.check })]);
    return null;
  };
  const { passed, first, second } = event;
  const { quantity, entries } = check!;
  if (quantity === "verdict") {
    return passed === undefined ? say("reading-is-verdict", "value") : [{ form: "verdict", passed }];
  }
  if (passed !== undefined) return say("reading-not-verdict", "passed");
  const unitProblem = problemOfUnit(event.unit, quantity);
  if (unitProblem !== null) {
    report.add(event, [unitProblem]);
    return null;
  }
  const held = (part: NumberForms, field?: string): Entry => {
    const entry = entryFromForms(part, event.unit);
    const implausible = problemOfSize(part, entry, quantity, event.unit);
    const problems = implausible !== null ? [implausible] : problemsAsRead(entry, check!, instrument, known);
    if (problems.length > 0) report.add(event, problems, field);
    return entry;
  };
  if (first === undefined || second === undefined) return [held(event)];
  return entries === 2 ? [held(first, "first"), held(second, "second")] : say("reading-not-double", "second");
}

function problemsAsRead(
  entry: Entry,
  { bothWays }: KnownCheck,
  instrument: Instrument | null,
  known: Known,
): readonly Diagnostic[] {
  if (instrument === null) return [];
  return known.entryProblems(bothWays ? readBothWays(instrument) : instrument, entry);
}

type NumberForms = { readonly value?: number; readonly goes?: number; readonly doesNotGo?: number };

function entryFromForms({ value, goes, doesNotGo }: NumberForms, unit: UnitId | undefined): Entry {
  const inCore = (number: number): number => (unit === undefined ? number : coreFromUnit(number, unit));
  if (value !== undefined) return { form: "value", value: inCore(value) };
  if (goes === undefined) return { form: "atMost", bound: inCore(doesNotGo!) };
  if (doesNotGo === undefined) return { form: "atLeast", bound: inCore(goes) };
  return { form: "interval", goes: inCore(goes), doesNotGo: inCore(doesNotGo) };
}

function problemOfUnit(unit: UnitId | undefined, quantity: Exclude<ReadingQuantity, "verdict">): Diagnostic | null {
  const where = { field: "unit" };
  if (quantity === "count") return unit === undefined ? null : refusal("reading-without-unit", where);
  if (unit === undefined) return refusal("reading-unit", where);
  if (quantityByUnit.get(unit) === quantity) return null;
  const expected = unitsOfQuantity(quantity)
    .map(({ id }) => id)
    .join(", ");
  return refusal("unit-of-other-quantity", where, {
    text: unit,
    typed: unitOf(unit).quantity,
    asked: quantity,
    expected,
  });
}

const quantityByUnit: ReadonlyMap<UnitId, string> = new Map(
  (["length", "slope", "force", "frequency", "temperature", "share"] as const).flatMap((quantity) =>
    unitsOfQuantity(quantity).map(({ id }) => [id, quantity] as const),
  ),
);

// No reading at a machine of this kind is larger, whatever took it; in core units.
const mostPlausible = { length: 10_000, slope: 1000, force: 10_000, frequency: 20_000, count: 1_000_000 } as const;
const mostInWords = {
  length: "10 m",
  slope: "1000 mm/m",
  force: "10 kN",
  frequency: "20 kHz",
  count: "a million",
} as const;

function problemOfSize(
  part: NumberForms,
  entry: Entry,
  quantity: Exclude<ReadingQuantity, "verdict">,
  unit: UnitId | undefined,
): Diagnostic | null {
  const largest = entry.form === "value" ? entry.value : entry.form === "interval" ? entry.doesNotGo : boundOf(entry);
  if (Math.abs(largest) <= mostPlausible[quantity]) return null;
  const [field, typed] = Object.entries({ value: part.value, doesNotGo: part.doesNotGo, goes: part.goes }).find(
    ([, number]) => number !== undefined,
  ) as [string, number];
  const symbol = unit === undefined ? "" : ` ${unitOf(unit).symbol}`;
  const data = { found: `${String(typed).replace("-", "−")}${symbol}`, most: mostInWords[quantity] };
  return refusal("reading-not-plausible", { field }, data);
}

function boundOf(entry: Entry): number {
  return entry.form === "atLeast" || entry.form === "atMost" ? entry.bound : 0;
}
