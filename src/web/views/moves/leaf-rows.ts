import { leafCounts } from "../../../app/typed-leaves.ts";
import { readNumber } from "../../../core/base/number-entry.ts";
import { formatTrimmed } from "../../../core/base/number-format.ts";
import { type UnitId, unitFromCore, unitOf } from "../../../core/base/units.ts";
import type { MovesBoard } from "../../worker/protocol-moves.ts";

/** One thickness of a list of leaves as it is typed, and how many there are of it. */
export interface LeafRow {
  readonly thickness: string;
  readonly count: string;
  /** The leaf that the row was made from, mm; null once another thickness is typed. It keeps what rounding would lose. */
  readonly madeFrom: number | null;
}

/** Of one leaf, mm. */
export const THINNEST = 0.001;
export const THICKEST = 20;
/** Of one thickness. */
export const MOST = 100;

export const emptyLeafRow: LeafRow = { thickness: "", count: "1", madeFrom: null };

/** Those of the logbook, or the usual ones, each by itself, mm. */
export function leavesAtHand({ leaves }: MovesBoard["stock"]): readonly number[] {
  return leaves.flatMap(({ mm, count }) => Array.from({ length: count }, () => mm));
}

/** What the list starts from; leaves come in mm and are shown in the user's unit. */
export function leafRows(leavesMm: readonly number[], unit: UnitId): readonly LeafRow[] {
  return Array.from(leafCounts(leavesMm), ([mm, count]) => ({
    thickness: thicknessInWords(mm, unit),
    count: String(count),
    madeFrom: mm,
  }));
}

/** In mm; a unit typed with the number counts. Null for what is no leaf. */
export function thicknessOf({ thickness, madeFrom }: LeafRow, unit: UnitId): number | null {
  if (madeFrom !== null) return madeFrom;
  const read = readNumber(thickness, { quantity: "length", usualUnit: unit });
  if (!read.ok || read.value.addends.length > 1) return null;
  const { value } = read.value;
  return value >= THINNEST && value <= THICKEST ? value : null;
}

export function countOf({ count }: LeafRow): number | null {
  const many = /^\d{1,3}$/.test(count.trim()) ? Number(count) : 0;
  return many >= 1 && many <= MOST ? many : null;
}

/** Every leaf by itself, mm; null while something of it is no leaf. */
export function leavesOf(rows: readonly LeafRow[], unit: UnitId): readonly number[] | null {
  const leaves: number[] = [];
  for (const row of rows) {
    const [mm, many] = [thicknessOf(row, unit), countOf(row)];
    if (mm === null || many === null) return null;
    leaves.push(...Array.from({ length: many }, () => mm));
  }
  return leaves;
}

/** "0.05 × 8, 0.1 mm", in the user's unit. */
export function leavesInUnit(leavesMm: readonly number[], unit: UnitId): string {
  const words = Array.from(
    leafCounts(leavesMm),
    ([mm, count]) => `${thicknessInWords(mm, unit)}${count > 1 ? ` × ${count}` : ""}`,
  );
  return `${words.join(", ")} ${unitOf(unit).symbol}`;
}

/** Fine enough for any leaf: to the micrometre, the ten-thousandth of an inch or the tenth of a thou. */
function thicknessInWords(mm: number, unit: UnitId): string {
  return formatTrimmed(unitFromCore(mm, unit), unit === "in" ? 4 : unit === "thou" ? 1 : 3);
}
