import { type Diagnostic, type Place, refusal, warning } from "./diagnostic.ts";
import { type ExactRatio, ratio } from "./exact-ratio.ts";
import { type Outcome, refuse, succeed } from "./outcome.ts";
import { type Quantity, type Unit, unitFromSpelling, unitsOfQuantity } from "./units.ts";

/** One number with its unit, without a sign: a whole reading, or one leaf of a stack. */
export interface Addend {
  readonly amount: ExactRatio;
  readonly isFraction: boolean;
  /** Only where one was typed. */
  readonly unit?: Unit;
}

export interface AddendContext {
  /** All that was typed, to be repeated in a refusal. */
  readonly whole: string;
  /** Place of the addend's first character. */
  readonly place: Place & { readonly column: number };
  readonly asked: Quantity;
}

/** Reads a decimal or a fraction and the unit behind it. Plain characters only. */
export function readAddend(text: string, context: AddendContext): Outcome<Addend> {
  const indent = text.length - text.trimStart().length;
  const body = text.trim();
  const refuseAt = (index: number, code: Diagnostic["code"]): Outcome<Addend> =>
    refuse(refusal(code, shifted(context.place, indent + index), { text: context.whole }));

  const fraction = /^(?:(\d+) +)?(\d+) *\/ *(\d+)/.exec(body) ?? undefined;
  const vulgar = fraction ? undefined : (/^(\d*) *([½¼¾⅛⅜⅝⅞])/u.exec(body) ?? undefined);
  const decimal = /^[\d.,]*/.exec(body)![0];
  const amountText = fraction?.[0] ?? vulgar?.[0] ?? decimal;
  const rest = body.slice(amountText.length);

  if (!/[\d½¼¾⅛⅜⅝⅞]/u.test(amountText)) return refuseAt(0, "number-not-readable");
  if (/^ +\d/.test(rest)) return refuseAt(amountText.length, "number-with-gap");
  if (/^ *[-.,/\d½¼¾⅛⅜⅝⅞]/u.test(rest)) return refuseAt(amountText.length, "number-not-readable");

  let amount: ExactRatio;
  const remarks: Diagnostic[] = [];
  if (fraction) {
    const [inches, top, bottom] = [BigInt(fraction[1] ?? 0), BigInt(fraction[2]!), BigInt(fraction[3]!)];
    const possible = bottom > 0n && (fraction[1] === undefined || top < bottom);
    if (!possible) return refuseAt(0, "fraction-not-possible");
    amount = ratio(inches * bottom + top, bottom);
  } else if (vulgar) {
    const [top, bottom] = vulgarFractions[vulgar[2]!]!;
    amount = ratio(BigInt(vulgar[1]!) * bottom + top, bottom);
  } else {
    const [before = "", after = "", ...more] = decimal.split(/[.,]/);
    if (more.length > 0) return refuseAt(before.length + 1 + after.length, "number-with-two-marks");
    amount = ratio(BigInt(before + after), 10n ** BigInt(after.length));
    // 1,250 is a number in every country, but not the same one.
    if (/^[1-9]\d{0,2},\d{3}$/.test(decimal)) {
      const place = shifted(context.place, indent + before.length);
      remarks.push(warning("comma-taken-as-decimal-mark", place, { text: decimal, read: `${before}.${after}` }));
    }
  }

  const unit = readUnit(rest, shifted(context.place, indent + body.length - rest.trimStart().length), context.asked);
  if (!unit.ok) return unit;
  return succeed({ amount, isFraction: Boolean(fraction ?? vulgar), ...(unit.value && { unit: unit.value }) }, remarks);
}

const vulgarFractions: Readonly<Record<string, readonly [bigint, bigint]>> = {
  "½": [1n, 2n],
  "¼": [1n, 4n],
  "¾": [3n, 4n],
  "⅛": [1n, 8n],
  "⅜": [3n, 8n],
  "⅝": [5n, 8n],
  "⅞": [7n, 8n],
};

function readUnit(text: string, place: Place, asked: Quantity): Outcome<Unit | undefined> {
  const spelling = text.trim();
  if (spelling === "") return succeed(undefined);
  const unit = unitFromSpelling(spelling, asked);
  if (unit?.quantity === asked) return succeed(unit);
  const expected = unitsOfQuantity(asked)
    .map(({ symbol }) => symbol)
    .join(", ");
  if (!unit) return refuse(refusal("unit-not-known", place, { text: spelling, expected }));
  return refuse(refusal("unit-of-other-quantity", place, { text: spelling, typed: unit.quantity, asked, expected }));
}

function shifted(place: Place & { readonly column: number }, by: number): Place {
  return { ...place, column: place.column + by };
}
