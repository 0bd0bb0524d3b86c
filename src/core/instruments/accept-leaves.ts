import { type Place, refusal } from "../base/diagnostic.ts";
import { readNumber } from "../base/number-entry.ts";
import { type Outcome, refuse, succeed } from "../base/outcome.ts";
import { type UnitId, unitOf } from "../base/units.ts";
import type { Entry } from "./entry.ts";
import type { LeafSet } from "./instrument.ts";
import { nextStackUp, type Stack, stackLimits, stacksOf, stackThatMakes } from "./leaves.ts";
import { inMarks } from "./marks.ts";
import { engravedRoundingMm, stackProblem } from "./possible-readings.ts";

/** Two fields: the thickest stack that goes in and the thinnest that does not. At least one is filled. */
export interface TypedLeaves {
  readonly goes?: string;
  readonly doesNotGo?: string;
}

/** A set of leaves, the unit engraved on them, and the unit taken where none is typed. */
export interface LeafQuestion {
  readonly set: LeafSet;
  readonly markedIn: UnitId;
  readonly usualUnit: UnitId;
  readonly where: Place;
}

interface AcceptedStack {
  readonly totalMm: number;
  readonly unit: UnitId;
}

/** Reads both fields against what the set can make; `acceptEntry` says how an empty field is taken. */
export function acceptLeaves(
  typed: TypedLeaves,
  question: LeafQuestion,
): Outcome<{ readonly entry: Entry; readonly unit: UnitId }> {
  const { usualUnit, where } = question;
  const stacks = stacksOf(question.set);
  const goesText = (typed.goes ?? "").trim();
  const doesNotGoText = (typed.doesNotGo ?? "").trim();
  const doesNotGo = doesNotGoText === "" ? null : acceptStack(doesNotGoText, "doesNotGo", question, stacks);

  if (goesText === "" && doesNotGo) {
    if (!doesNotGo.ok) return doesNotGo;
    const { thinnestMm } = stackLimits(stacks);
    const { totalMm, unit } = doesNotGo.value;
    if (totalMm > thinnestMm) {
      const data = { text: doesNotGoText, from: inMarks(thinnestMm, usualUnit), unit: unitOf(usualUnit).symbol };
      return refuse(refusal("leaf-that-goes-missing", fieldOf(where, "goes"), data));
    }
    return succeed({ entry: { form: "atMost", bound: totalMm }, unit }, doesNotGo.diagnostics);
  }

  const goes = acceptStack(goesText, "goes", question, stacks);
  if (!goes.ok) return goes;
  const { totalMm, unit } = goes.value;
  if (!doesNotGo) {
    const next = nextStackUp(stacks, totalMm);
    const entry: Entry = next
      ? { form: "interval", goes: totalMm, doesNotGo: next.totalMm }
      : { form: "atLeast", bound: totalMm };
    return succeed({ entry, unit }, goes.diagnostics);
  }
  if (!doesNotGo.ok) return doesNotGo;
  if (doesNotGo.value.totalMm <= totalMm) {
    const data = { goes: goesText, doesNotGo: doesNotGoText };
    return refuse(refusal("leaves-crossed", fieldOf(where, "doesNotGo"), data));
  }
  const entry: Entry = { form: "interval", goes: totalMm, doesNotGo: doesNotGo.value.totalMm };
  return succeed({ entry, unit }, [...goes.diagnostics, ...doesNotGo.diagnostics]);
}

function acceptStack(
  text: string,
  field: "goes" | "doesNotGo",
  { set, markedIn, usualUnit, where }: LeafQuestion,
  stacks: readonly Stack[],
): Outcome<AcceptedStack> {
  const place = fieldOf(where, field);
  const read = readNumber(text, { quantity: "length", usualUnit, where: place });
  if (!read.ok) return read;
  const { value, unit, addends } = read.value;
  const toleranceMm = unit === markedIn ? 0 : engravedRoundingMm;

  if (addends.length > 1) {
    // Leaves that were named one by one must be in the set themselves; a leaf cannot lie on itself.
    const leaves = addends.map((leaf) => stackThatMakes(singles(set), leaf, toleranceMm)?.totalMm ?? null);
    const known = leaves.filter((leaf) => leaf !== null);
    const data = { text, name: inMarks(addends[leaves.indexOf(null)] ?? 0, unit), unit: unitOf(unit).symbol };
    if (known.length < leaves.length) return refuse(refusal("leaf-not-in-set", place, data));
    const isLegal = new Set(known).size === known.length && known.length <= set.largestStack;
    if (!isLegal) return refuse(refusal("stack-not-allowed", place, { text, largestStack: set.largestStack }));
    return succeed({ totalMm: totalOf(known, stacks), unit }, read.diagnostics);
  }
  const problem = stackProblem(set, stacks, { value, unit, text }, place, toleranceMm);
  if (problem) return refuse(problem);
  return succeed({ totalMm: stackThatMakes(stacks, value, toleranceMm)!.totalMm, unit }, read.diagnostics);
}

function singles(set: LeafSet): readonly Stack[] {
  return stacksOf({ ...set, largestStack: 1 });
}

function totalOf(leavesMm: readonly number[], stacks: readonly Stack[]): number {
  const sum = leavesMm.reduce((total, leaf) => total + leaf, 0);
  return stackThatMakes(stacks, sum)!.totalMm;
}

function fieldOf(where: Place, field: string): Place {
  return { ...where, field: where.field === undefined ? field : `${where.field}.${field}` };
}
