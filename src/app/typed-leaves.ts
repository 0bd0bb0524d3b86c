import { refusal } from "../core/base/diagnostic.ts";
import { formatTrimmed } from "../core/base/number-format.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { numberOrNull } from "./typed-number.ts";

/** "0.5 0.1x4", or "0.5+0.1x4": thicknesses in mm, each as often as there are leaves of it. `of` says what was typed. */
export function leavesFromText(text: string, of: string): Outcome<readonly number[]> {
  const leaves: number[] = [];
  for (const word of text.split(/[\s+]+/).filter((part) => part !== "")) {
    const [thickness, times = "1", ...more] = word.split(/[x×]/);
    const mm = numberOrNull(thickness);
    const many = /^\d{1,3}$/.test(times) ? Number(times) : 0;
    if (mm === null || mm <= 0 || many === 0 || more.length > 0) {
      const expected = "thicknesses in mm, such as 0.5, 0.1x4 for four leaves of one thickness";
      return refuse(refusal("word-form", {}, { word, of, expected }));
    }
    leaves.push(...Array.from({ length: many }, () => mm));
  }
  return succeed(leaves);
}

/** "0.05 × 8, 0.1 × 4". */
export function leavesInWords(leavesMm: readonly number[]): string {
  return Array.from(
    leafCounts(leavesMm),
    ([leaf, count]) => `${formatTrimmed(leaf, 3)}${count > 1 ? ` × ${count}` : ""}`,
  ).join(", ");
}

/** How often there is a leaf of each thickness, in the order in which they are listed. */
export function leafCounts(leavesMm: readonly number[]): ReadonlyMap<number, number> {
  const many = new Map<number, number>();
  for (const leaf of leavesMm) many.set(leaf, (many.get(leaf) ?? 0) + 1);
  return many;
}
