import { type Place, refusal } from "../base/diagnostic.ts";
import { invariant } from "../base/invariant.ts";
import { readNumber } from "../base/number-entry.ts";
import { type Outcome, refuse, succeed } from "../base/outcome.ts";
import { countsInInches, type UnitId, unitOf } from "../base/units.ts";
import { acceptLeaves } from "./accept-leaves.ts";
import type { Entry } from "./entry.ts";
import { type Instrument, quantityOf } from "./instrument.ts";
import { markedUnitOf, type NumberInstrument, rangeProblem } from "./possible-readings.ts";

/** One reading as it comes from a field, a table's cell or a key. Of leaves, one of the two fields may stay empty. */
export type TypedEntry =
  | { readonly form: "value"; readonly text: string }
  | { readonly form: "leaves"; readonly goes?: string; readonly doesNotGo?: string }
  | { readonly form: "verdict"; readonly passed: boolean };

export interface EntryOptions {
  readonly where?: Place;
  /** Taken when no unit is typed, instead of the one the instrument is marked in. */
  readonly usualUnit?: UnitId;
}

/** An entry, and the unit it was typed in (of two fields, the first's); null for a look. */
export interface AcceptedEntry {
  readonly entry: Entry;
  readonly unit: UnitId | null;
}

/**
 * What an instrument can have shown, in the core's unit; anything else is refused with what was possible and, where one
 * slip of the fingers explains it, with what was probably meant. Never throws.
 *
 * Leaves: a stack that goes alone is completed by the next thicker one, and is a lower bound if there is none; a stack
 * that does not go alone is an upper bound if it is the thinnest, else it is refused, since nothing thinner was tried.
 */
export function acceptEntry(
  instrument: Instrument,
  typed: TypedEntry,
  options: EntryOptions = {},
): Outcome<AcceptedEntry> {
  const where = options.where ?? {};
  if (instrument.measures === "eye") {
    if (typed.form !== "verdict") return refuse(refusal("entry-needs-verdict", where));
    return succeed({ entry: { form: "verdict", passed: typed.passed }, unit: null });
  }
  const usualUnit = usualUnitOf(instrument, options.usualUnit);
  if (typed.form === "verdict") {
    return refuse(refusal("entry-needs-number", where, { name: instrument.name, unit: unitOf(usualUnit).symbol }));
  }
  if (instrument.measures === "length" && instrument.leaves) {
    const fields = typed.form === "value" ? typedLeavesFromText(typed.text, usualUnit) : typed;
    return acceptLeaves(fields, { set: instrument.leaves, markedIn: markedUnitOf(instrument), usualUnit, where });
  }
  if (typed.form === "leaves") return refuse(refusal("entry-needs-leaves", where, { name: instrument.name }));
  return acceptValue(instrument, typed.text, usualUnit, where);
}

/**
 * Both fields of leaves out of one cell of a table: `0.35/0.40`, `0.35`, `<0.05` (not even that goes), `>2.85` (even that
 * goes). Two whole numbers with a stroke between them are a fraction where inches are usual.
 */
export function typedLeavesFromText(text: string, usualUnit: UnitId): Extract<TypedEntry, { form: "leaves" }> {
  const bound = /^\s*([<≤>≥])=?(.*)$/su.exec(text);
  if (bound) {
    const rest = bound[2]!;
    return "<≤".includes(bound[1]!) ? { form: "leaves", doesNotGo: rest } : { form: "leaves", goes: rest };
  }
  const halves = text.split("/");
  const isPair = halves.length === 2 && (/[.,]/.test(text) || usualUnit === "thou") && !countsInInches(usualUnit);
  if (isPair) return { form: "leaves", goes: halves[0]!, doesNotGo: halves[1]! };
  return { form: "leaves", goes: text };
}

function acceptValue(
  instrument: NumberInstrument,
  text: string,
  usualUnit: UnitId,
  where: Place,
): Outcome<AcceptedEntry> {
  const read = readNumber(text, { quantity: instrument.measures, usualUnit, where });
  if (!read.ok) return read;
  const { value, unit, addends } = read.value;
  if (addends.length > 1) {
    return refuse(refusal("sum-without-leaves", where, { text: text.trim(), name: instrument.name }));
  }
  const problem = rangeProblem(instrument, { value, unit, text: text.trim() }, where);
  if (problem) return refuse(problem);
  return succeed({ entry: { form: "value", value }, unit }, read.diagnostics);
}

function usualUnitOf(instrument: NumberInstrument, asked: UnitId | undefined): UnitId {
  const unit = asked ?? markedUnitOf(instrument);
  invariant(unitOf(unit).quantity === quantityOf(instrument), "the usual unit is one of the instrument's quantity");
  return unit;
}
