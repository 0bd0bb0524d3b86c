import { formatNumber, formatTrimmed } from "../base/number-format.ts";
import { type UnitId, unitFromCore, unitOf } from "../base/units.ts";

/** As it is engraved: two decimals in millimetres, no idle zeros in thousandths. */
export function inMarks(value: number, unit: UnitId): string {
  if (unit !== "mm") return formatTrimmed(unitFromCore(value, unit), 4);
  const trimmed = formatTrimmed(value, 4);
  return (trimmed.split(".")[1]?.length ?? 0) > 2 ? trimmed : formatNumber(value, 2);
}

/** "12 of 0.03 to 0.50 mm", or of one leaf alone "0.03 mm". */
export function leafSetInWords(leavesMm: readonly number[], unit: UnitId): string {
  const { symbol } = unitOf(unit);
  const [thinnest, thickest] = [inMarks(Math.min(...leavesMm), unit), inMarks(Math.max(...leavesMm), unit)];
  return leavesMm.length === 1 ? `${thinnest} ${symbol}` : `${leavesMm.length} of ${thinnest} to ${thickest} ${symbol}`;
}

/** Every leaf as it is engraved, "0.03 0.04 0.05 mm". Read as a list it is the same leaves again. */
export function leafListInWords(leavesMm: readonly number[], unit: UnitId): string {
  return `${leavesMm.map((leaf) => inMarks(leaf, unit)).join(" ")} ${unitOf(unit).symbol}`;
}
