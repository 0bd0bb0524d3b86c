import { lettering } from "./lettering.ts";
import { line, type Point } from "./lines.ts";
import { type StationState, stationRing } from "./marks.ts";
import type { LineKind } from "./stylesheet.ts";
import type { Svg } from "./svg.ts";

/** One row of the key: a kind of line or a ring, and what it stands for. */
export type KeyRow =
  | { readonly line: LineKind | null; readonly words: string }
  | { readonly stations: readonly StationState[]; readonly words: string };

const STEP = 19;
const SAMPLE = 52;

export function keyHeight(rows: readonly KeyRow[]): number {
  return rows.length * STEP;
}

/** The key, its first row under the place. A row without a line goes on with the one above. */
export function lineKey(rows: readonly KeyRow[], [left, top]: Point): Svg {
  return rows
    .map((row, i) => {
      const y = top + i * STEP + STEP / 2;
      const rings = "stations" in row ? row.stations : [];
      const text = lettering(row.words, [left + Math.max(SAMPLE, 22 * rings.length) + 10, y + 4.5]);
      if ("stations" in row) {
        return rings.map((state, k) => stationRing([left + 11 + 22 * k, y + 2], k + 1, state)).join("") + text;
      }
      return (row.line ? line(row.line, [left, y], [left + SAMPLE, y]) : "") + text;
    })
    .join("");
}
