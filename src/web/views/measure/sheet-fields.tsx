import type { Signal } from "@preact/signals";
import { useId } from "preact/hooks";
import { FILLS_ITSELF, toNextField } from "../../parts/enter-key.ts";
import { PlainNumber, TextField } from "../../parts/fields.tsx";
import { ToldList } from "../../parts/told.tsx";
import { ask } from "../../worker/client.ts";
import type { CheckPage, ReadingVerdict, ReadMany, StationEntry } from "../../worker/protocol.ts";
import { fieldsOf, keysFor } from "./entry-text.ts";
import { fillSecondLeaf, withTyped } from "./second-leaf.ts";
import { AGAIN, forgetTrial, isDay, type SheetHead, type TypedSheet, today, toldOfRow } from "./typed-sheet.ts";

/** The stations of one check as a table to type into, in the order of the printed sheet. */
export function SheetFields({ page, sheet }: { page: CheckPage; sheet: TypedSheet }) {
  const { texts, tried } = sheet;
  const id = useId();
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
              <th scope="col">answer</th>
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
          {rowsOf(page).map((station, place) => {
            const verdict = verdictOf(station, page, tried.value);
            const set = (i: number, text: string) => {
              put(sheet, station.row, i, text);
              sheet.typed.value = {
                ...sheet.typed.value,
                [station.row]: withTyped(sheet.typed.value[station.row] ?? [], i),
              };
              if (fields[i]?.asks === "goes")
                void fillSecond(page, sheet, station.row, i, `${id} ${station.row} ${i + 1}`);
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
                      aria-label={`${station.name}, yes or no`}
                      value={texts.value[station.row]?.[0] ?? ""}
                      onChange={(event) => set(0, event.currentTarget.value)}
                    >
                      <option value="">not looked at</option>
                      <option value="yes">yes</option>
                      <option value="no">no</option>
                    </select>
                  </td>
                ) : (
                  fields.map(({ key, label, asks }, i) => (
                    <td key={key}>
                      <input
                        id={`${id} ${station.row} ${i}`}
                        class="number"
                        {...(asks === "doesNotGo" && { [FILLS_ITSELF]: true })}
                        inputMode={keysFor(page.entry)}
                        autocomplete="off"
                        aria-label={`${station.name}, ${label}`}
                        aria-invalid={toldOfRow(sheet, place)}
                        value={texts.value[station.row]?.[i] ?? ""}
                        onFocus={(event) => {
                          if (!sheet.typed.value[station.row]?.[i]) event.currentTarget.select();
                        }}
                        onInput={(event) => set(i, event.currentTarget.value)}
                        onKeyDown={toNextOnEnter}
                      />
                    </td>
                  ))
                )}
                {tried.value && (
                  <td class={verdict?.fits === "failed" ? "out" : verdict?.fits === "far" ? "strong" : ""}>
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

/** The head of the printed sheet: when and by whom it was filled in, how warm and how damp it was. */
export function SheetHeadFields({ head, onChanged }: { head: Signal<SheetHead>; onChanged: () => void }) {
  const id = useId();
  const change = (some: Partial<SheetHead>) => {
    head.value = { ...head.value, ...some };
    onChanged();
  };
  const set = (name: string) => (value: number | null) => {
    const { [name]: _, ...others } = head.value.conditions;
    change({ conditions: value === null ? others : { ...others, [name]: value } });
  };
  const { date, by } = head.value;
  return (
    <div class="sheet-head">
      <div class="form-field">
        <label for={id}>Date</label>
        <input
          id={id}
          type="date"
          max={today()}
          value={date}
          aria-describedby={`${id}-hint`}
          aria-invalid={!isDay(date)}
          onInput={(event) => change({ date: event.currentTarget.value })}
        />
        <p class="note" id={`${id}-hint`}>
          The day it was read.{!isDay(date) && <strong class="wrong"> It has to be a day up to today.</strong>}
        </p>
      </div>
      <TextField label="Who" hint="May stay empty." most={60} text={by} onText={(text) => change({ by: text })} />
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

/** What is refused or remarked, each with the station that it is about. */
export function SheetTold({ page, sheet }: { page: CheckPage; sheet: TypedSheet }) {
  const rows = rowsOf(page);
  const isTable = sheet.pasted.value.trim() !== "";
  return (
    <div role="alert">
      <ToldList told={sheet.told.value} {...(!isTable && { nameOf: (line) => rows[line - 1]?.name ?? "" })} />
    </div>
  );
}

function put(sheet: TypedSheet, row: string, field: number, text: string): void {
  const { texts } = sheet;
  const old = texts.value[row] ?? [];
  const long = Math.max(old.length, field + 1);
  texts.value = {
    ...texts.value,
    [row]: Array.from({ length: long }, (_, i) => (i === field ? text : (old[i] ?? ""))),
  };
  forgetTrial(sheet);
}

function fillSecond({ chosen, entry }: CheckPage, sheet: TypedSheet, row: string, field: number, second: string) {
  const { machine, texts, typed } = sheet;
  return fillSecondLeaf(
    {
      goes: () => texts.value[row]?.[field] ?? "",
      isTheirs: () => (typed.value[row]?.[field + 1] ?? false) || document.activeElement?.id === second,
      put: (text) => put(sheet, row, field + 1, text),
    },
    (goes) => ask("nextLeaf", { machine, instrument: chosen.instrument ?? "", goes, unit: entry.unit }),
  );
}

/** Digits and Enter are enough: from the last field Enter sends the form, which only tries how the readings sit. */
function toNextOnEnter(event: KeyboardEvent) {
  const field = event.currentTarget as HTMLInputElement;
  if (event.key !== "Enter" || event.isComposing || !field.form) return;
  if (toNextField(field, field.form)) event.preventDefault();
}
