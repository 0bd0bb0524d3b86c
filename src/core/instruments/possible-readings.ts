import { type Diagnostic, type Place, refusal } from "../base/diagnostic.ts";
import { formatTrimmed } from "../base/number-format.ts";
import { coreFromUnit, coreUnitOf, type UnitId, unitFromCore, unitOf } from "../base/units.ts";
import type { Entry } from "./entry.ts";
import { type Instrument, type LeafSet, type Range, rangeOf } from "./instrument.ts";
import { type Stack, stackLimits, stacksAround, stacksOf, stackThatMakes } from "./leaves.ts";
import { inMarks } from "./marks.ts";
import { likelyMeant } from "./typing-slip.ts";

/** An instrument that gives numbers. */
export type NumberInstrument = Exclude<Instrument, { readonly measures: "eye" }>;

/** A number that somebody claims to have read. */
export interface ClaimedNumber {
  /** In the core's unit. */
  readonly value: number;
  readonly unit: UnitId;
  /** As it was typed, to be repeated in a refusal. */
  readonly text: string;
}

/**
 * What makes an entry impossible on an instrument, whatever way it came: a file of another program, an older logbook. Empty
 * when the instrument can have shown it. Numbers in core units, shown in the unit the instrument is marked in.
 */
export function problemsOfEntry(instrument: Instrument, entry: Entry, where: Place = {}): readonly Diagnostic[] {
  if (instrument.measures === "eye") return entry.form === "verdict" ? [] : [refusal("entry-needs-verdict", where)];
  const unit = markedUnitOf(instrument);
  const claim = (value: number): ClaimedNumber => ({ value, unit, text: inMarks(value, unit) });
  if (entry.form === "verdict") {
    return [refusal("entry-needs-number", where, { name: instrument.name, unit: unitOf(unit).symbol })];
  }

  const leaves = instrument.measures === "length" ? instrument.leaves : undefined;
  const numbers =
    entry.form === "value" ? [entry.value] : entry.form === "interval" ? [entry.goes, entry.doesNotGo] : [entry.bound];
  if (!leaves) {
    if (entry.form !== "value") return [refusal("entry-needs-leaves", where, { name: instrument.name })];
    return numbers.flatMap((value) => rangeProblem(instrument, claim(value), where) ?? []);
  }
  const stacks = stacksOf(leaves);
  // In which unit it was typed is not known here, so what is engraved beside thousandths is let pass.
  const toleranceMm = unit === "mm" ? 0 : engravedRoundingMm;
  const problems = numbers.flatMap((value) => stackProblem(leaves, stacks, claim(value), where, toleranceMm) ?? []);
  if (entry.form === "interval" && entry.goes >= entry.doesNotGo) {
    const data = { goes: inMarks(entry.goes, unit), doesNotGo: inMarks(entry.doesNotGo, unit) };
    return [...problems, refusal("leaves-crossed", where, data)];
  }
  return problems;
}

/** A hundredth of a millimetre is what is engraved beside thousandths, so half of one may be lost in the rounding. */
export const engravedRoundingMm = 0.005;

/** Why a number lies outside the range of an instrument, with the number that was probably meant; null if it does not. */
export function rangeProblem(instrument: NumberInstrument, claim: ClaimedNumber, where: Place): Diagnostic | null {
  const range = rangeOf(instrument);
  if (!range || isWithin(range, claim.value)) return null;
  const { unit } = claim;
  const isPossible = (candidate: number) => isWithin(range, coreFromUnit(candidate, unit));
  const meant = likelyMeant(unitFromCore(claim.value, unit), isPossible, ["mark moved"]);
  const { symbol } = unitOf(unit);
  return refusal("reading-out-of-range", where, {
    text: claim.text,
    name: instrument.name,
    from: formatTrimmed(unitFromCore(range.from, unit), 4),
    to: formatTrimmed(unitFromCore(range.to, unit), 4),
    unit: symbol,
    ...(meant !== null && { meant: `${formatTrimmed(meant, 4)} ${symbol}` }),
  });
}

/** Why no stack of a set is that thick, with the stack that was probably meant; null if one is. */
export function stackProblem(
  set: LeafSet,
  stacks: readonly Stack[],
  claim: ClaimedNumber,
  where: Place,
  toleranceMm: number,
): Diagnostic | null {
  const { value, unit, text } = claim;
  if (stackThatMakes(stacks, value, toleranceMm)) return null;

  const { thinnestMm, thickestMm } = stackLimits(stacks);
  const outside = value < thinnestMm || thickestMm < value;
  const { symbol } = unitOf(unit);
  const meant = meantStack(claim, stacks, outside);
  const common = { text, unit: symbol, ...(meant !== null && { meant: `${inMarks(meant, unit)} ${symbol}` }) };
  if (outside) {
    const side = value < thinnestMm ? "below" : "above";
    const limits = { from: inMarks(thinnestMm, unit), to: inMarks(thickestMm, unit), largestStack: set.largestStack };
    return refusal("leaves-out-of-range", where, { ...common, ...limits, side });
  }
  const { below, above } = stacksAround(stacks, value);
  const nearest = { below: inMarks(below!.totalMm, unit), above: inMarks(above!.totalMm, unit) };
  return refusal("leaves-cannot-make", where, { ...common, ...nearest });
}

export function markedUnitOf(instrument: NumberInstrument): UnitId {
  return instrument.markedIn ?? coreUnitOf[instrument.measures];
}

/** Outside the set the decimal mark has usually slipped; inside, two digits have usually changed places. */
function meantStack({ value, unit }: ClaimedNumber, stacks: readonly Stack[], outside: boolean): number | null {
  const makes = (candidate: number) => stackThatMakes(stacks, coreFromUnit(candidate, unit)) !== null;
  const order = outside ? (["mark moved", "digits swapped"] as const) : (["digits swapped", "mark moved"] as const);
  const meant = likelyMeant(unitFromCore(value, unit), makes, order);
  return meant === null ? null : coreFromUnit(meant, unit);
}

function isWithin(range: Range, value: number): boolean {
  // A nanometre of slack: 25 mm may come as 0.98425197 in.
  const slack = 1e-6;
  return range.from - slack <= value && value <= range.to + slack;
}
