import { useSignal } from "@preact/signals";
import { record } from "../../outbox/outbox.ts";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences, preferredUnit } from "../../preferences.ts";
import { goTo, machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { CheckPage, ReadMany, Told, TypedStation } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { entryText, fieldsOf } from "./entry-text.ts";
import { Cautions } from "./set-up-view.tsx";
import { choiceFromQuery, queryFromChoice } from "./setup-query.ts";

interface TypeInProps {
  readonly machine: string;
  readonly check: string;
  readonly query: URLSearchParams;
}

/** A whole run at one go: from a sheet that was filled in at the machine, or as a table from somewhere else. */
export function TypeInView({ machine, check, query }: TypeInProps) {
  const unit = useSignal(preferredUnit());
  const answer = useAnswer("check", { machine, choice: choiceFromQuery(check, query), unit: unit.value }).value;
  const texts = useSignal<Readonly<Record<string, readonly string[]>>>({});
  const pasted = useSignal("");
  const fileName = useSignal("pasted table");
  const told = useSignal<readonly Told[]>([]);
  const tried = useSignal<ReadMany | null>(null);
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  const fields = fieldsOf(page.entry);
  const back = machineAddress(machine, "measure", check) + queryFromChoice(page.chosen);

  const forgetTrial = () => {
    tried.value = null;
    told.value = [];
  };

  async function readings(): Promise<readonly TypedStation[] | null> {
    if (pasted.value.trim() !== "") {
      const table = await ask("table", { text: pasted.value, name: fileName.value, unit: page.entry.unit });
      told.value = table.told;
      return table.ok ? table.value : null;
    }
    return page.stations.map(({ key }) => ({
      station: key,
      text:
        page.entry.kind === "verdict"
          ? (texts.value[key]?.[0] ?? "")
          : entryText(page.entry, texts.value[key] ?? []).replace(/^:$/, ""),
      ...(page.entry.unit !== "" && { unit: page.entry.unit }),
    }));
  }

  /** First it is only tried: how every reading would sit is seen before anything is kept. */
  async function tryIt() {
    const typed = await readings();
    if (typed === null) return;
    const answered = await ask("readMany", { machine, setup: page.chosen, readings: typed, by: preferences.value.by });
    told.value = answered.told;
    tried.value = answered.ok ? answered.value : null;
  }

  async function keep() {
    if (tried.value === null) return;
    const run = tried.value.verdicts[0]?.run ?? "";
    await record(machine, tried.value.events);
    goTo(machineAddress(machine, "measure", check, "run", run));
  }

  return (
    <main class="type-in">
      <Heading words={`${page.title}: a whole run`} />
      <p class="small second">
        {page.entry.instrument !== "" && `Read with ${page.entry.instrument}. `}
        <Link to={back}>Change how it is set up</Link>
      </p>
      <Cautions page={page} />
      <div class="type-in-columns">
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void tryIt();
          }}
        >
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
                    unit.value = id;
                    forgetTrial();
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
                  forgetTrial();
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
          <div role="alert">
            <ToldList told={told.value} />
          </div>
          <div class="button-row" role="status">
            {tried.value === null ? (
              <button type="submit" class="act">
                See how they sit
              </button>
            ) : (
              <>
                <button type="button" class="act" onClick={() => void keep()}>
                  Keep{" "}
                  {tried.value.verdicts.length === 1 ? "this reading" : `these ${tried.value.verdicts.length} readings`}
                </button>
                <span class="small second">Nothing is kept yet.</span>
              </>
            )}
          </div>
        </form>
        <PasteTable
          page={page}
          pasted={pasted.value}
          onText={(text, name) => {
            pasted.value = text;
            fileName.value = name;
            forgetTrial();
          }}
        />
      </div>
    </main>
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

interface PasteProps {
  readonly page: CheckPage;
  readonly pasted: string;
  readonly onText: (text: string, name: string) => void;
}

function PasteTable({ page, pasted, onText }: PasteProps) {
  const example = page.stations
    .slice(0, 2)
    .map(
      ({ key }, i) =>
        `${key};${page.entry.kind === "leaves" ? "0.35/0.40" : page.entry.kind === "verdict" ? "yes" : `0.1${i}`}`,
    );
  return (
    <section class="paste">
      <h2>Or as a table</h2>
      <p class="small">
        A line of names, then one reading a line: <b>station</b> and <b>reading</b>, and <b>unit</b> if it differs.
        Places of your own go into columns <b>x</b>, <b>y</b> and <b>z</b>, in mm of the machine. Comma, semicolon or
        tab between the columns.
      </p>
      <pre class="example">{["station;reading", ...example].join("\n")}</pre>
      <label class="form-field">
        <span>Paste it here</span>
        <textarea
          rows={8}
          spellcheck={false}
          value={pasted}
          onInput={(event) => onText(event.currentTarget.value, "pasted table")}
        />
      </label>
      <label class="button file-button">
        <input
          type="file"
          class="hide"
          accept=".csv,.tsv,.txt,text/csv"
          onChange={async (event) => {
            const file = event.currentTarget.files?.[0];
            if (file) onText(await file.text(), file.name);
          }}
        />
        Take a file
      </label>
      {pasted.trim() !== "" && <p class="note">The table is taken now, and not the form beside it.</p>}
    </section>
  );
}
