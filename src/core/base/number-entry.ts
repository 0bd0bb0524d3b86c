import { type Diagnostic, type Place, refusal } from "./diagnostic.ts";
import { inverseOf, negativeOf, numberFromRatio, productOf, sumOf } from "./exact-ratio.ts";
import { invariant } from "./invariant.ts";
import { type Addend, readAddend } from "./number-addend.ts";
import { type Outcome, refuse, succeed } from "./outcome.ts";
import { countsInInches, exactFactorOf, type Quantity, type UnitId, unitOf } from "./units.ts";

/** A number as a person typed it. */
export interface NumberEntry {
  /** In the core's unit of the quantity that was asked for; the sum where several were added. */
  readonly value: number;
  /** The unit it was typed in, or the usual one where none was typed. In a sum, the first addend's. */
  readonly unit: UnitId;
  /** `value` as it reads in `unit`. */
  readonly valueInUnit: number;
  /** What was added up, in the core's unit, in the order typed: the leaves of a stack. One number where nothing was added. */
  readonly addends: readonly number[];
}

export interface NumberQuestion {
  readonly quantity: Quantity;
  /** Taken when no unit is typed; one of the quantity's. */
  readonly usualUnit: UnitId;
  /** Where the text stands; `column`, if given, is the column of its first character. */
  readonly where?: Place;
}

/**
 * Reads a number as people type it: `0,35`, `+.35 mm`, `−1.2`, `13 thou`, `3/16"`, `1 3/16in`, `0.20+0.15`.
 *
 * Comma and point are both decimal marks, so neither can part thousands: what could be read in two ways is refused.
 * A fraction is one of an inch; where millimetres are usual it needs its unit. In a sum, a unit typed once counts for
 * every addend. Every refusal names the column. Never throws.
 */
export function readNumber(text: string, question: NumberQuestion): Outcome<NumberEntry> {
  const where = question.where ?? {};
  const usual = unitOf(question.usualUnit);
  invariant(usual.quantity === question.quantity, "the usual unit is one of the quantity that is asked for");
  const whole = text.trim();
  if (whole === "") return refuse(refusal("number-missing", where, { unit: usual.symbol }));
  if (whole.length > longestEntry) {
    return refuse(refusal("number-not-readable", where, { text: `${whole.slice(0, 20)}…` }));
  }

  const plain = withPlainCharacters(text);
  const sign = /^\s*[+-]?/.exec(plain)![0];
  const negative = sign.endsWith("-");
  const pieces = plain.slice(sign.length).split("+");
  if (negative && pieces.length > 1) return refuse(refusal("sum-with-minus", where, { text: whole }));

  const addends: Addend[] = [];
  const remarks: Diagnostic[] = [];
  let offset = sign.length;
  for (const piece of pieces) {
    const place = { ...where, column: (where.column ?? 1) + offset };
    const outcome = readAddend(piece, { whole, place, asked: question.quantity });
    if (!outcome.ok) return outcome;
    addends.push(outcome.value);
    remarks.push(...outcome.diagnostics);
    offset += piece.length + 1;
  }

  const typedUnits = new Map(addends.flatMap(({ unit }) => (unit ? [[unit.id, unit] as const] : [])));
  if (typedUnits.size > 1 && addends.some(({ unit }) => !unit)) {
    return refuse(refusal("sum-with-unclear-units", where, { text: whole }));
  }
  const [onlyUnit] = typedUnits.values();
  if (!onlyUnit && addends.some(({ isFraction }) => isFraction) && !countsInInches(usual.id)) {
    return refuse(refusal("fraction-needs-unit", where, { text: whole, unit: usual.symbol }));
  }

  const unitOfAddend = (addend: Addend) => addend.unit ?? onlyUnit ?? usual;
  const amounts = addends.map((addend) => productOf(addend.amount, exactFactorOf(unitOfAddend(addend))));
  const signed = negative ? amounts.map(negativeOf) : amounts;
  const sum = signed.reduce(sumOf);
  const unit = unitOfAddend(addends[0]!);
  return succeed(
    {
      value: numberFromRatio(sum),
      unit: unit.id,
      valueInUnit: numberFromRatio(productOf(sum, inverseOf(exactFactorOf(unit)))),
      addends: signed.map(numberFromRatio),
    },
    remarks,
  );
}

/** What is longer was pasted by mistake; this also keeps every number finite. */
const longestEntry = 60;

/** Keyboards and phones put other characters in place of the plain ones; each is replaced by one of the same length. */
function withPlainCharacters(text: string): string {
  return text
    .replace(/[−–‐‑]/gu, "-")
    .replace(/[⁄∕]/gu, "/")
    .replace(/＋/gu, "+")
    .replace(/\s/gu, " ");
}
