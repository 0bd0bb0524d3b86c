import { formatTrimmed } from "../../core/base/number-format.ts";
import { type UnitId, unitFromCore, unitOf } from "../../core/base/units.ts";
import { type Check, usualEntries } from "../../core/checks/check.ts";
import { type Instrument, rangeOf, readBothWays } from "../../core/instruments/instrument.ts";
import { stackLimits, stacksOf } from "../../core/instruments/leaves.ts";
import { inMarks } from "../../core/instruments/marks.ts";
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
  const range = instrument ? rangeOf(check.bothWays ? readBothWays(instrument) : instrument) : undefined;
  const withUnit = (from: string, to: string) => `${from} to ${to} ${unitOf(chosen).symbol}`;
  const limits = leaves && stackLimits(stacksOf(leaves));
  const parts = usualEntries(check, instrument) === 2 ? (check.entries ?? []) : [""];
  const order = parts.map((_, i) => i);
  return {
    kind: quantity === "verdict" ? "verdict" : leaves ? "leaves" : "number",
    parts,
    order: check.readsSecondFirst ? order.reverse() : order,
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

/** A number of the core in the unit given, with no idle zeros. */
export function numberIn(value: number, unit: UnitId): string {
  return formatTrimmed(unitFromCore(value, unit), unit === "in" ? 5 : 4);
}
