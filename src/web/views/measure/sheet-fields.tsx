import type { CheckPage } from "../../worker/protocol.ts";
import { fieldsOf } from "./entry-text.ts";
import { forgetTrial, type TypedSheet } from "./typed-sheet.ts";

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
          {page.stations.map((station) => {
            const verdict = tried.value?.verdicts.find(({ station: key }) => key === station.key);
            const set = (i: number, text: string) => {
              const row = (fields.length === 0 ? [""] : fields).map((_, k) =>
                k === i ? text : (texts.value[station.key]?.[k] ?? ""),
              );
              texts.value = { ...texts.value, [station.key]: row };
              forgetTrial(sheet);
            };
            return (
              <tr key={station.key}>
                <td class="strong">{station.number}</td>
                <th scope="row">
                  {station.words}
                  {station.nominal !== "" && <span class="second small"> {station.nominal}</span>}
                </th>
                {page.entry.kind === "verdict" ? (
                  <td>
                    <select
                      aria-label={`Station ${station.number}, passes`}
                      value={texts.value[station.key]?.[0] ?? ""}
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
                        inputMode="decimal"
                        autocomplete="off"
                        aria-label={`Station ${station.number}, ${label}`}
                        value={texts.value[station.key]?.[i] ?? ""}
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
