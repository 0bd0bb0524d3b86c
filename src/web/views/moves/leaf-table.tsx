import type { Signal } from "@preact/signals";
import { formatTrimmed } from "../../../core/base/number-format.ts";
import { type UnitId, unitFromCore, unitOf } from "../../../core/base/units.ts";
import { preferredUnit } from "../../preferences.ts";
import { countOf, emptyLeafRow, type LeafRow, leavesOf, MOST, THICKEST, THINNEST, thicknessOf } from "./leaf-rows.ts";

/** Leaves are sold by their thickness in mm; who always types in another unit reads and types it here as well. */
export function leafUnit(): UnitId {
  return (preferredUnit() ?? "mm") as UnitId;
}

interface Props {
  readonly rows: Signal<readonly LeafRow[]>;
  readonly unit: UnitId;
  readonly onEdit: () => void;
}

/** A list of leaves to be typed: each thickness, and how many there are of it. */
export function LeafTable({ rows, unit, onEdit }: Props) {
  const { symbol } = unitOf(unit);
  const put = (next: readonly LeafRow[]) => {
    rows.value = next;
    onEdit();
  };
  const set = (at: number, some: Partial<LeafRow>) =>
    put(rows.value.map((row, i) => (i === at ? { ...row, ...some } : row)));
  return (
    <>
      <table class="stock-table">
        <thead>
          <tr>
            <th scope="col">thickness, {symbol}</th>
            <th scope="col">how many</th>
            <th scope="col">
              <span class="hide">take off the list</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.value.map((row, i) => (
            <tr key={i}>
              <td>
                <input
                  aria-label={`Thickness of leaf ${i + 1}, ${symbol}`}
                  inputMode="decimal"
                  autocomplete="off"
                  aria-invalid={thicknessOf(row, unit) === null}
                  value={row.thickness}
                  onInput={(event) => set(i, { thickness: event.currentTarget.value, madeFrom: null })}
                />
              </td>
              <td>
                <input
                  aria-label={`How many of leaf ${i + 1}`}
                  inputMode="numeric"
                  autocomplete="off"
                  aria-invalid={countOf(row) === null}
                  value={row.count}
                  onInput={(event) => set(i, { count: event.currentTarget.value })}
                />
              </td>
              <td>
                <button
                  type="button"
                  class="plain small-button"
                  aria-label={`Take ${row.thickness} off the list`}
                  onClick={() => put(rows.value.filter((_, at) => at !== i))}
                >
                  off
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        <button type="button" onClick={() => put([...rows.value, emptyLeafRow])}>
          One more thickness
        </button>
      </p>
      {leavesOf(rows.value, unit) === null && (
        <p class="small">
          Every thickness is at least {formatTrimmed(unitFromCore(THINNEST, unit), 5)} and at most{" "}
          {formatTrimmed(unitFromCore(THICKEST, unit), 2)} {symbol}, every count a whole number from 1 to {MOST}.
        </p>
      )}
    </>
  );
}
