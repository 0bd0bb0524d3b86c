import { useEffect } from "preact/hooks";
import { Drawing } from "../../parts/drawing.tsx";
import { Choice } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { Waiting } from "../../parts/waiting.tsx";
import { type Preferences, prefer, preferences, preferredUnit } from "../../preferences.ts";
import type { CheckPage } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { LeafSymbol } from "./entry-fields.tsx";
import { fieldsOf } from "./entry-text.ts";
import { roundsOf, setUpOf } from "./rounds.ts";
import { choiceFromQuery } from "./setup-query.ts";

/** A sheet that is asked for: a check, and the query of its set-up. */
interface AskedSheet {
  /** Of a card of a round, which tells apart the ways of one check. */
  readonly title?: string;
  readonly check: string;
  readonly query: URLSearchParams;
}

/** The sheets of cards of the rounds, by their keys and in this order. */
export function RoundSheetsView({ machine, cards }: { machine: string; cards: readonly string[] }) {
  const answer = useAnswer("checks", { machine }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const known = roundsOf(answer.value).flatMap((round) => round.cards);
  const sheets = cards.map((key): AskedSheet => {
    const card = known.find((candidate) => candidate.key === key);
    const query = new URLSearchParams(card && setUpOf(card));
    return { check: card?.id ?? key, query, ...(card && { title: card.title }) };
  });
  return <BlankSheets machine={machine} sheets={sheets} />;
}

/** Sheets with blanks, to be filled in with a pencil and typed in at one go. */
export function BlankSheets({ machine, sheets }: { machine: string; sheets: readonly AskedSheet[] }) {
  const { paper } = preferences.value;
  usePaper(paper);
  return (
    <main class="blank-sheets">
      <div class="not-printed title-row">
        <Heading words={sheets.length === 1 ? "A sheet to fill in" : `${sheets.length} sheets to fill in`} />
        <button type="button" class="act" onClick={() => print()}>
          Print
        </button>
      </div>
      <div class="not-printed">
        <Choice
          label="Paper"
          value={paper}
          answers={[
            ["a4", "A4"],
            ["letter", "Letter"],
          ]}
          onChoose={(chosen) => prefer({ paper: chosen })}
        />
        <p class="small second">
          Each check stands on a sheet of its own. The form to type it in has the same fields in the same order.
        </p>
      </div>
      {sheets.map(({ title, check, query }, i) => (
        <BlankSheet
          key={`${check} ${query}`}
          machine={machine}
          {...(title !== undefined && { title })}
          check={check}
          query={query}
          isFirst={i === 0}
          place={sheets.length === 1 ? "" : `sheet ${i + 1} of ${sheets.length}`}
        />
      ))}
    </main>
  );
}

/** What size the printer is asked for while the sheets are shown: the page's own styles cannot know what was chosen. */
function usePaper(paper: Preferences["paper"]): void {
  useEffect(() => {
    const style = new CSSStyleSheet();
    style.replaceSync(`@page{size:${paper}}`);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, style];
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((other) => other !== style);
    };
  }, [paper]);
}

interface SheetPlace {
  readonly machine: string;
  readonly place: string;
  /** What holds for every sheet stands on the first. */
  readonly isFirst: boolean;
}

function BlankSheet({ machine, title, check, query, place, isFirst }: AskedSheet & SheetPlace) {
  const answer = useAnswer("check", { machine, choice: choiceFromQuery(check, query), unit: preferredUnit() }).value;
  const list = useAnswer("list", {}).value;
  if (!answer?.ok) return <Waiting />;
  const page = answer.value;
  const name = list?.find(({ id }) => id === machine)?.name;
  // Many blanks leave no room for the steps beside the drawing.
  const isLong = page.stations.length > 12;
  return (
    <article class={`blank-sheet${isLong ? " long" : ""}`}>
      <header>
        <h2>{title ?? page.title}</h2>
        <p class="small">
          {[name, place, page.entry.instrument && `read with ${page.entry.instrument}`].filter(Boolean).join(", ")}
        </p>
      </header>
      <dl class="blank-head">
        {["Date", "Who", "Temperature, °C", "Humidity, %"].map((head) => (
          <div key={head}>
            <dt>{head}</dt>
            <dd />
          </div>
        ))}
      </dl>
      <section class="cautions">
        {page.cautions.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {isFirst && <p class="note">{page.cautionHead}</p>}
      </section>
      <div class="blank-columns">
        <div class="blank-picture">
          <Drawing svg={page.narrow} />
          <p class="small">
            <b>What is read.</b> {page.sign}
          </p>
          {page.questions.length > 0 && (
            <dl class="blank-questions small">
              {page.questions.map(({ key, question, chosen }) => (
                <div key={key}>
                  <dt>{question}</dt>
                  <dd class="strong">{chosen}</dd>
                </div>
              ))}
            </dl>
          )}
          {page.entry.kind === "leaves" && <LeafWords />}
        </div>
        <div class="blank-rows">
          <Blanks page={page} />
          {!isLong && <Steps page={page} />}
        </div>
      </div>
      {isLong && <Steps page={page} />}
    </article>
  );
}

function Steps({ page }: { page: CheckPage }) {
  return (
    <ol class="steps small">
      {page.steps.map((step) => (
        <li key={step}>{step}</li>
      ))}
    </ol>
  );
}

/** What the two columns of leaves mean, for whoever has only the sheet. */
function LeafWords() {
  return (
    <dl class="leaf-words small">
      <div>
        <dt>
          <LeafSymbol goes /> goes
        </dt>
        <dd>The thickest leaf, or stack of up to three, that slides with the drag of writing paper.</dd>
      </div>
      <div>
        <dt>
          <LeafSymbol goes={false} /> does not go
        </dt>
        <dd>The next one up. Where the faces touch and no leaf goes, write 0 under “goes”.</dd>
      </div>
    </dl>
  );
}

function Blanks({ page }: { page: CheckPage }) {
  const fields = page.entry.kind === "verdict" ? [{ key: "passes", label: "yes / no" }] : fieldsOf(page.entry);
  const unit = page.entry.units.find(({ id }) => id === page.entry.unit)?.symbol ?? "";
  return (
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
        {page.returns && (
          <tr>
            <td class="strong">1</td>
            <th scope="row">The first station again</th>
            {fields.map(({ key: field }) => (
              <td key={field} class="blank" />
            ))}
          </tr>
        )}
      </tbody>
    </table>
  );
}
