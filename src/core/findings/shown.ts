import {
  formatNumber,
  formatTrimmed,
  type ShownQuantity,
  showValue,
  stepForUncertainty,
} from "../base/number-format.ts";
import type { FindingResult } from "./evaluate.ts";
import type { Finding } from "./finding.ts";

/** A finding's numbers as they are read by a person: stepped by what is known, with a true minus sign. */
export interface ShownFinding {
  readonly value: string;
  readonly uncertainty: string;
  readonly unit: string;
  /** "−0.42 ± 0.06 mm in 200" */
  readonly whole: string;
  /** "±0.40", "at most 0.10", or empty. */
  readonly limit: string;
}

export function showFinding(result: FindingResult): ShownFinding {
  const { finding, value, expandedUncertainty, limit } = result;
  const quantity: ShownQuantity = finding.unit === "mm/m" ? "slope" : "length";
  const sign = finding.sided === "two" ? "always" : "when negative";
  const shown = showValue(value, expandedUncertainty, { quantity, system: "metric", sign });
  return {
    value: shown.value,
    uncertainty: shown.uncertainty,
    unit: finding.unit,
    whole: `${shown.value} ± ${shown.uncertainty} ${finding.unit}`,
    limit: limit === null ? "" : limitInWords(finding, limit),
  };
}

/** What the value means at the machine, no finer than it is known; where even the direction is open, it says so. */
export function meaningInWords(result: FindingResult): string {
  const { finding, value, low, high } = result;
  const shown = showFinding(result);
  if (finding.sided === "two" && low < 0 && high > 0) {
    const most = stepped(Math.max(-low, high), result.expandedUncertainty);
    return `Which way is not known: it is less than ${most} ${finding.unit} either way.`;
  }
  return finding.meaning(Math.sign(value) * Math.abs(Number(shown.value.replace("−", "-"))));
}

/** Rounded up to the step that the uncertainty deserves. */
function stepped(value: number, expandedUncertainty: number): string {
  const { size, decimals } = stepForUncertainty(expandedUncertainty);
  return formatNumber(Math.ceil(value / size - 1e-9) * size, decimals);
}

export function limitInWords(finding: Finding, limit: number): string {
  const text = formatTrimmed(limit, 3);
  return finding.sided === "two" ? `±${text}` : `at most ${text}`;
}
