import { invariant } from "./invariant.ts";
import { type UnitId, unitFromCore, unitOf } from "./units.ts";

export type SystemOfUnits = "metric" | "inch";

/** What a shown value counts in inside the core. */
export type ShownQuantity = "length" | "slope" | "force" | "frequency";

/** When a sign stands before a number. A signed quantity always carries its sign, so that + is never a guess. */
export type SignRule = "always" | "when negative";

export interface ValueStyle {
  readonly quantity: ShownQuantity;
  readonly system?: SystemOfUnits;
  readonly sign?: SignRule;
}

/** Texts of one value and its expanded uncertainty, all in the same step and unit. */
export interface ShownValue {
  /** `−0.18` */
  readonly value: string;
  /** `0.06` */
  readonly uncertainty: string;
  readonly unit: UnitId;
  /** `−0.18 ± 0.06 mm` */
  readonly whole: string;
}

/**
 * A value no finer than its uncertainty deserves: stepped by the smallest of …0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1… that is at
 * least a third of the expanded uncertainty U, and U rounded up to the same step. For reading only: verdicts and data
 * for machines use the numbers as they are.
 */
export function showValue(value: number, expandedUncertainty: number, style: ValueStyle): ShownValue {
  invariant(Number.isFinite(value), "a shown value is finite");
  invariant(expandedUncertainty >= 0 && Number.isFinite(expandedUncertainty), "an expanded uncertainty is finite");
  const unit = shownUnit(value, expandedUncertainty, style);
  const shown = unitFromCore(value, unit);
  const uncertainty = unitFromCore(expandedUncertainty, unit);
  const step = stepForUncertainty(uncertainty, finestStepOf(unit));
  const texts = {
    value: formatNumber(nearestCount(shown, step) * step.size, step.decimals, style.sign),
    uncertainty: formatNumber(countUpwards(uncertainty, step) * step.size, step.decimals),
  };
  return { ...texts, unit, whole: `${texts.value} ± ${texts.uncertainty} ${unitOf(unit).symbol}` };
}

/** An expanded uncertainty by itself, as it would stand behind the value that it belongs to. */
export function showUncertainty(expandedUncertainty: number, quantity: ShownQuantity = "length"): string {
  return showValue(0, expandedUncertainty, { quantity }).uncertainty;
}

/** A step 1, 2 or 5 times a power of ten, with the decimals that write it out. */
export interface Step {
  readonly size: number;
  readonly decimals: number;
}

/** The smallest step of the series 1, 2, 5 that is at least U/3, never finer than `finest` (itself one of the series). */
export function stepForUncertainty(expandedUncertainty: number, finest = 0.01): Step {
  const wanted = Math.max(expandedUncertainty / 3, finest) * (1 - roundingSlack);
  // One power lower than it should be: the logarithm of a power of ten may fall on the wrong side of a whole number.
  for (let power = Math.floor(Math.log10(wanted)) - 1; ; power++) {
    for (const mantissa of [1, 2, 5]) {
      const size = power < 0 ? mantissa / 10 ** -power : mantissa * 10 ** power;
      if (size >= wanted) return { size, decimals: Math.max(0, -power) };
    }
  }
}

/** A number with a true minus sign and fixed decimals; nothing is never −0.00 or +0.00. */
export function formatNumber(value: number, decimals: number, sign: SignRule = "when negative"): string {
  const digits = Math.abs(value).toFixed(decimals);
  if (Number(digits) === 0) return digits;
  if (value < 0) return `−${digits}`;
  return sign === "always" ? `+${digits}` : digits;
}

/** A dimension known as it is, without uncertainty: up to `decimals` places, no idle zeros, unit after a space. */
export function formatLength(
  lengthMm: number,
  system: SystemOfUnits = "metric",
  decimals = system === "metric" ? 2 : 3,
): string {
  const unit = system === "metric" ? "mm" : "in";
  return `${formatTrimmed(unitFromCore(lengthMm, unit), decimals)} ${unit}`;
}

/** Up to `decimals` places, without idle zeros, with a true minus sign. */
export function formatTrimmed(value: number, decimals: number): string {
  const fixed = formatNumber(value, decimals);
  return fixed.includes(".") ? fixed.replace(/\.?0+$/, "") : fixed;
}

/**
 * A chance in per cent, whole numbers from 1 to 99. Rounded towards even chances, so that it never sounds surer than it
 * is and never stands on the other side of a verdict's limit than the chance itself.
 */
export function formatChance(probability: number): string {
  return inHundredths(probability, (count) => `${count} %`);
}

/** The same as `63 chances in 100`. */
export function formatChanceInWords(probability: number): string {
  return inHundredths(probability, (count) => `${count} ${count === 1 ? "chance" : "chances"} in 100`);
}

function inHundredths(probability: number, say: (count: number) => string): string {
  invariant(probability >= 0 && probability <= 1, "a chance lies between nothing and one");
  if (probability < 0.01) return `under ${say(1)}`;
  if (probability > 0.99) return `over ${say(99)}`;
  const hundredths = probability * 100;
  return say(probability < 0.5 ? Math.ceil(hundredths - roundingSlack) : Math.floor(hundredths + roundingSlack));
}

/** 0.06/3 is not quite 0.02 in a double; a step or a count may not jump for that. */
const roundingSlack = 1e-9;

/** Half a step is rounded away from nothing, so that a value and its opposite show the same digits. */
function nearestCount(value: number, step: Step): number {
  return Math.sign(value) * Math.round(Math.abs(value) / step.size + roundingSlack);
}

function countUpwards(value: number, step: Step): number {
  return Math.ceil(value / step.size - roundingSlack);
}

/** Thousandths of an inch for what a feeler or a dial shows, inches for what a rule shows. */
function shownUnit(value: number, expandedUncertainty: number, { quantity, system = "metric" }: ValueStyle): UnitId {
  switch (quantity) {
    case "force":
      return system === "inch" ? "lbf" : "N";
    case "frequency":
      return "Hz";
    case "slope":
      return system === "inch" ? "thou/ft" : "mm/m";
    case "length":
      if (system === "metric") return "mm";
      return Math.max(Math.abs(value), expandedUncertainty) < 25.4 ? "thou" : "in";
  }
}

/** A hundredth of a millimetre and what comes nearest to it; a finer step would promise more than hands can do. */
function finestStepOf(unit: UnitId): number {
  switch (unit) {
    case "thou":
      return 0.5;
    case "in":
      return 0.0005;
    case "thou/ft":
      return 0.1;
    case "N":
    case "lbf":
    case "Hz":
      return 0.1;
    default:
      return 0.01;
  }
}
