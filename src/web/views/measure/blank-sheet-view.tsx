import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Waiting } from "../../parts/waiting.tsx";
import { preferredUnit } from "../../preferences.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { fieldsOf } from "./entry-text.ts";
import { choiceFromQuery } from "./setup-query.ts";

interface BlankSheetProps {
  readonly machine: string;
  readonly checks: readonly string[];
  readonly query: URLSearchParams;
}

/** Sheets with blanks, one a check, to be filled in with a pencil and typed in at one go. */
export function BlankSheetView({ machine, checks, query }: BlankSheetProps) {
  return (
    <main class="blank-sheets">
      <div class="not-printed title-row">
        <Heading words={checks.length === 1 ? "A sheet to fill in" : `${checks.length} sheets to fill in`} />
        <button type="button" class="act" onClick={() => print()}>
          Print
        </button>
      </div>
      <p class="not-printed small second">
        Each check stands on a sheet of its own, A4 or Letter. What stands on it is typed in under “Type a whole run
        in”.
      </p>
      {checks.map((check) => (
        <BlankSheet
          key={check}
          machine={machine}
          check={check}
          query={checks.length === 1 ? query : new URLSearchParams()}
        />
      ))}
    </main>
  );
}

function BlankSheet({ machine, check, query }: { machine: string; check: string; query: URLSearchParams }) {
  const answer = useAnswer("check", { machine, choice: choiceFromQuery(check, query), unit: preferredUnit() }).value;
  const list = useAnswer("list", {}).value;
  if (!answer?.ok) return <Waiting />;
  const page = answer.value;
  const fields = page.entry.kind === "verdict" ? [{ key: "passes", label: "good / not good" }] : fieldsOf(page.entry);
  const unit = page.entry.units.find(({ id }) => id === page.entry.unit)?.symbol ?? "";
  const options = page.questions.map(({ question, chosen }) => `${question} ${chosen}`);
  return (
    <article class="blank-sheet">
      <header>
        <h2>{page.title}</h2>
        <p class="small">{list?.find(({ id }) => id === machine)?.name}</p>
      </header>
      <dl class="blank-head">
        {[
          "Date",
          "Who",
          "Temperature",
          "Humidity",
          page.entry.instrument === "" ? "Read by" : `Read with ${page.entry.instrument}; its number`,
        ].map((name) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd />
          </div>
        ))}
      </dl>
      <section class="cautions">
        {page.cautions.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        <p class="note">{page.cautionHead}</p>
      </section>
      <div class="blank-picture">
        <Drawing svg={page.wide} frame name={`Where and how it is read: ${page.title}`} />
      </div>
      {options.length > 0 && <p class="small">{options.join(" · ")}</p>}
      <ol class="steps small">
        {page.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <p class="small">
        <b>Plus:</b> {page.sign}
      </p>
      <table class="blanks">
        <thead>
          <tr>
            <th scope="col">no</th>
            <th scope="col">station</th>
            {fields.map(({ key, label }) => (
              <th scope="col" key={key}>
                {label}
                {unit === "" ? "" : `, ${unit}`}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {page.stations.map(({ number, key, words, place, nominal }) => (
            <tr key={key}>
              <td class="strong">{number}</td>
              <th scope="row">
                {words}
                <span class="second small"> {[place, nominal].filter((part) => part !== "").join(", ")}</span>
              </th>
              {fields.map(({ key: field }) => (
                <td key={field} class="blank" />
              ))}
            </tr>
          ))}
          {page.entry.kind !== "verdict" && page.stations.length > 2 && (
            <tr>
              <td class="strong">1</td>
              <th scope="row">the first station again</th>
              {fields.map(({ key: field }) => (
                <td key={field} class="blank" />
              ))}
            </tr>
          )}
        </tbody>
      </table>
    </article>
  );
}
