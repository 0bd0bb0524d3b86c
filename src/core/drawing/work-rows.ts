import { type SignRule, showValue } from "../base/number-format.ts";
import type { KnownValue } from "../work/pictures/known-value.ts";

/** A picture as things stand and, where there is one, after the plan. */
export interface Compared<T> {
  readonly now: T;
  readonly after: T | null;
}

/** One number of a picture, for a table on the sheet and for one that is read out. */
export interface WorkRow {
  readonly words: string;
  readonly unit: "mm" | "mm/m";
  readonly now: KnownValue;
  readonly after: KnownValue | null;
  /** No finer than they are known: "299.82 ± 0.27". */
  readonly nowText: string;
  readonly afterText: string | null;
  /** "main": what the picture is about. "lesser": in the list, not on the sheet. */
  readonly weight: "main" | "usual" | "lesser";
  /** A little room before it. */
  readonly opensGroup: boolean;
}

export interface RowStyle {
  readonly unit?: "mm" | "mm/m";
  readonly sign?: SignRule;
  readonly weight?: WorkRow["weight"];
  readonly opensGroup?: boolean;
}

/** The same number of both pictures as a row. */
export function workRow<T>(
  words: string,
  { now, after }: Compared<T>,
  pick: (picture: T) => KnownValue,
  { unit = "mm", sign = "when negative", weight = "usual", opensGroup = false }: RowStyle = {},
): WorkRow {
  const known = { now: pick(now), after: after && pick(after) };
  const text = ({ value, expandedUncertainty }: KnownValue) => {
    const shown = showValue(value, expandedUncertainty, { quantity: unit === "mm/m" ? "slope" : "length", sign });
    return `${shown.value} ± ${shown.uncertainty}`;
  };
  return {
    words: unit === "mm/m" ? `${words}, mm/m` : words,
    unit,
    ...known,
    nowText: text(known.now),
    afterText: known.after && text(known.after),
    weight,
    opensGroup,
  };
}

/** Both pictures, or the one there is. */
export function picturesOf<T>({ now, after }: Compared<T>): readonly T[] {
  return after === null ? [now] : [now, after];
}
