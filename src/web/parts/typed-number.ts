import { wordsForDiagnostic } from "../../core/base/diagnostic-words.ts";
import { readNumber } from "../../core/base/number-entry.ts";
import { formatTrimmed } from "../../core/base/number-format.ts";
import { coreUnitOf, type Quantity, type UnitId, unitFromCore, unitOf } from "../../core/base/units.ts";

/** A number as it was typed into a form: its value in the core's unit, or what is wrong with it. Empty text is neither. */
export interface TypedNumber {
  readonly value: number | null;
  readonly problem: string;
}

export interface NumberAsked {
  readonly quantity: Exclude<Quantity, "share">;
  readonly from: number;
  readonly to: number;
}

/** Reads what was typed; a unit typed with it counts, and fractions of an inch do. Range in the core's unit. */
export function typedNumber(text: string, { quantity, from, to }: NumberAsked): TypedNumber {
  if (text.trim() === "") return { value: null, problem: "" };
  const read = readNumber(text, { quantity, usualUnit: coreUnitOf[quantity] });
  if (!read.ok) {
    const { code, data } = read.diagnostics[0];
    const { what, remedy } = wordsForDiagnostic(code, data);
    return { value: null, problem: `${upperFirst(what)}: ${remedy}.` };
  }
  const { value } = read.value;
  if (value < from || value > to)
    return {
      value: null,
      problem: `It has to be from ${rangeInWords({ quantity, from, to })}.`,
    };
  return { value, problem: "" };
}

export function rangeInWords({ quantity, from, to }: NumberAsked): string {
  const unit: UnitId = coreUnitOf[quantity];
  const number = (value: number) => formatTrimmed(unitFromCore(value, unit), 3);
  return `${number(from)} to ${number(to)} ${unitOf(unit).symbol}`;
}

function upperFirst(text: string): string {
  return text === "" ? "" : text[0].toUpperCase() + text.slice(1);
}
