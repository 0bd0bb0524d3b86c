import type { Signal } from "@preact/signals";
import { PlainNumber } from "../../parts/fields.tsx";
import type { CheckPage, ReadingVerdict, ReadMany, StationEntry } from "../../worker/protocol.ts";
import { fieldsOf, keysFor } from "./entry-text.ts";
import { AGAIN, type Conditions, forgetTrial, type TypedSheet } from "./typed-sheet.ts";

/** The stations of one check as a table to type into, in the order of the printed sheet. */
export function SheetFields({ page, sheet }: { page: CheckPage; sheet: TypedSheet }) {
  const { texts, tried } = sheet;
  const fields = fieldsOf(page.entry);
  return (
    <>
      {page.entry.units.length > 1 && (
        <p class="small">
          In{" "}
          {page.entry.units.map(({ id, symbol }) => (
            <button
              type="button"
              key={id}
              class="small-button"
              aria-pressed={id === page.entry.unit}
              onClick={() => {
                sheet.unit.value = id;
                forgetTrial(sheet);
              }}
            >
              {symbol}
            </button>
          ))}
        </p>
      )}
      <table class="type-in-table">
        <thead>
          <tr>
            <th scope="col">no</th>
            <th scope="col">station</th>
            {page.entry.kind === "verdict" ? (
              <th scope="col">passes</th>
            ) : (
              fields.map(({ key, label }) => (
                <th scope="col" key={key}>
                  {label}
                </th>
              ))
            )}
            {tried.value && <th scope="col">how it sits</th>}
          </tr>
        </thead>
        <tbody>
          {rowsOf(page).map((station) => {
            const verdict = verdictOf(station, page, tried.value);
            const set = (i: number, text: string) => {
              const row = (fields.length === 0 ? [""] : fields).map((_, k) =>
                k === i ? text : (texts.value[station.row]?.[k] ?? ""),
              );
              texts.value = { ...texts.value, [station.row]: row };
              forgetTrial(sheet);
            };
            return (
              <tr key={station.row}>
                <td class="strong">{station.number}</td>
                <th scope="row">
                  {station.words}
                  {station.nominal !== "" && <span class="second small"> {station.nominal}</span>}
                </th>
                {page.entry.kind === "verdict" ? (
                  <td>
                    <select
                      aria-label={`${station.name}, passes`}
                      value={texts.value[station.row]?.[0] ?? ""}
                      onChange={(event) => set(0, event.currentTarget.value)}
                    >
                      <option value="">not looked at</option>
                      <option value="yes">good</option>
                      <option value="no">not good</option>
                    </select>
                  </td>
                ) : (
                  fields.map(({ key, label }, i) => (
                    <td key={key}>
                      <input
                        class="number"
                        inputMode={keysFor(page.entry)}
                        autocomplete="off"
                        aria-label={`${station.name}, ${label}`}
                        value={texts.value[station.row]?.[i] ?? ""}
                        onInput={(event) => set(i, event.currentTarget.value)}
                        onKeyDown={(event) => toNextOnEnter(event)}
                      />
                    </td>
                  ))
                )}
                {tried.value && (
                  <td class={verdict?.fits === "far" || verdict?.fits === "failed" ? "out" : ""}>
                    {verdict ? verdict.strong + (verdict.fits === "far" ? "" : verdict.rest) : ""}
                  </td>
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
    </>
  );
}

/** A row of the printed sheet. */
interface SheetRow extends Pick<StationEntry, "number" | "words" | "nominal"> {
  readonly row: string;
  readonly name: string;
}

function rowsOf({ stations, returns }: CheckPage): readonly SheetRow[] {
  const rows = stations.map(
    (station): SheetRow => ({ ...station, row: station.key, name: `Station ${station.number}` }),
  );
  if (!returns) return rows;
  const again = { words: "The first station again", row: AGAIN, name: `Station ${rows[0].number} again` };
  return [...rows, { ...rows[0], ...again }];
}

/** A station that was read twice has two verdicts: the second is that of the last row. */
function verdictOf({ row, number }: SheetRow, { stations }: CheckPage, tried: ReadMany | null): ReadingVerdict | null {
  const key = row === AGAIN ? stations[number - 1].key : row;
  const all = tried?.verdicts.filter(({ station }) => station === key) ?? [];
  return (row === AGAIN ? all[1] : all[0]) ?? null;
}

/** Temperature and humidity, as they stand in the head of the printed sheet. */
export function SheetConditions({ conditions, onChanged }: { conditions: Signal<Conditions>; onChanged: () => void }) {
  const set = (name: string) => (value: number | null) => {
    const { [name]: _, ...others } = conditions.value;
    conditions.value = value === null ? others : { ...others, [name]: value };
    onChanged();
  };
  return (
    <div class="sheet-conditions">
      <PlainNumber
        label="Temperature"
        range={{ unit: "°C", from: -40, to: 80 }}
        optional
        start=""
        onNumber={set("temperatureC")}
      />
      <PlainNumber
        label="Humidity"
        range={{ unit: "%", from: 0, to: 100 }}
        optional
        start=""
        onNumber={set("humidityPercent")}
      />
    </div>
  );
}

/** Digits and Enter are enough: Enter goes to the next field, and in the last one it sends the form. */
function toNextOnEnter(event: KeyboardEvent) {
  if (event.key !== "Enter") return;
  const field = event.currentTarget as HTMLInputElement;
  const all = [...(field.form?.querySelectorAll<HTMLInputElement>("input.number") ?? [])];
  const next = all[all.indexOf(field) + 1];
  if (!next) return;
  event.preventDefault();
  next.focus();
  next.select();
}
