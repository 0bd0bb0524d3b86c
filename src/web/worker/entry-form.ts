import { formatTrimmed } from "../../core/base/number-format.ts";
import { type UnitId, unitFromCore, unitOf } from "../../core/base/units.ts";
import { type Check, usualEntries } from "../../core/checks/check.ts";
import type { Entry } from "../../core/instruments/entry.ts";
import type { Instrument, Range } from "../../core/instruments/instrument.ts";
import { stackLimits, stacksOf } from "../../core/instruments/leaves.ts";
import { inMarks } from "../../core/instruments/possible-readings.ts";
import type { EntryForm } from "./protocol.ts";

/** Units that a reading of each quantity is offered in, the core's own first. */
const offered = {
  length: ["mm", "in", "thou"],
  slope: ["mm/m", "deg", "thou/ft"],
  force: ["N", "kgf", "lbf"],
  frequency: ["Hz"],
  verdict: [],
  count: [],
} as const satisfies Record<Check["quantity"], readonly UnitId[]>;

/** What the fields of one station ask for. `unit` is what the user would like to type in, where it can be. */
export function entryForm(check: Check, instrument: Instrument | null, unit: string | null): EntryForm {
  const { quantity } = check;
  const leaves = instrument?.measures === "length" ? (instrument.leaves ?? null) : null;
  // A fraction of an inch and a pair of leaves look alike, so leaves are typed as they are engraved.
  const units: readonly UnitId[] = leaves ? ["mm", "thou"] : offered[quantity];
  const chosen = units.find((id) => id === unit) ?? instrument?.markedIn ?? units[0] ?? "mm";
  const range = instrument ? rangeOf(instrument) : undefined;
  const withUnit = (from: string, to: string) => `${from} to ${to} ${unitOf(chosen).symbol}`;
  const limits = leaves && stackLimits(stacksOf(leaves));
  return {
    kind: quantity === "verdict" ? "verdict" : leaves ? "leaves" : "number",
    parts: usualEntries(check, instrument) === 2 ? (check.entries ?? []) : [""],
    unit: quantity === "verdict" || quantity === "count" ? "" : chosen,
    units: (units.includes(chosen) ? units : [chosen, ...units]).map((id) => ({ id, symbol: unitOf(id).symbol })),
    signed:
      quantity !== "verdict" &&
      !leaves &&
      (range === undefined || range.from < 0) &&
      ["length", "slope"].includes(quantity),
    quantity,
    range: limits
      ? withUnit(inMarks(limits.thinnestMm, chosen), inMarks(limits.thickestMm, chosen))
      : range
        ? withUnit(numberIn(range.from, chosen), numberIn(range.to, chosen))
        : "",
    instrument: instrument?.name ?? "",
  };
}

/** Entries as they are read in a list, in the unit given. */
export function entriesInWords(entries: readonly Entry[], unit: string): string {
  return entries.map((entry) => entryInWords(entry, unit as UnitId)).join(" : ");
}

function entryInWords(entry: Entry, unit: UnitId): string {
  const text = (value: number) => numberIn(value, unit);
  switch (entry.form) {
    case "value":
      return text(entry.value);
    case "interval":
      return `${text(entry.goes)} / ${text(entry.doesNotGo)}`;
    case "atLeast":
      return `${text(entry.bound)} goes`;
    case "atMost":
      return `${text(entry.bound)} does not go`;
    case "verdict":
      return entry.passed ? "yes" : "no";
  }
}

export function numberIn(value: number, unit: UnitId): string {
  return formatTrimmed(unitFromCore(value, unit), unit === "in" ? 5 : 4);
}

function rangeOf(instrument: Instrument): Range | undefined {
  switch (instrument.measures) {
    case "length":
      return instrument.rangeMm;
    case "slope":
      return instrument.rangeMmPerM;
    case "force":
      return instrument.rangeN;
    case "frequency":
      return instrument.rangeHz;
    case "eye":
      return undefined;
  }
}
