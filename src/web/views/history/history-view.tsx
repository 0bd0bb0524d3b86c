import { useSignal } from "@preact/signals";
import { record } from "../../outbox/outbox.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { EpochTable } from "../../parts/epoch-table.tsx";
import { Select } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { preferences } from "../../preferences.ts";
import { goTo, machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { Draft, HistoryPage } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import type { StageProps } from "../stage-props.ts";
import { NoteHappening } from "./note-happening.tsx";

/** Findings over time, two dates side by side, and everything that happened. */
export function HistoryView({ machine, query }: StageProps) {
  const answer = useAnswer("history", { machine }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  const chosen = page.findings.find(({ id }) => id === query.get("finding")) ?? page.findings[0];
  return (
    <main class="history">
      <Heading words="History" />
      <div class="history-columns">
        <div>
          {page.dates.length > 1 && chosen ? (
            <>
              <section>
                <h2>One finding over time</h2>
                <Select
                  label="Finding"
                  value={chosen.id}
                  answers={page.findings.map(({ id, title }) => [id, title] as const)}
                  onChoose={(finding) =>
                    goTo(`${machineAddress(machine, "history")}?finding=${encodeURIComponent(finding)}`, "replace")
                  }
                />
                <Drawing svg={chosen.plot} frame name={`${chosen.title} over time`} />
                <EpochTable rows={chosen.rows} unit={chosen.unit} />
              </section>
              <Compared page={page} />
            </>
          ) : (
            <p>
              Findings over time are shown once the machine has been measured on either side of a move, a knock or some
              months.
            </p>
          )}
        </div>
        <div>
          <NoteHappening machine={machine} members={page.members} />
          <section>
            <h2>What happened</h2>
            <ol class="log">
              {page.log.map(({ id, date, time, by, words, canWithdraw }, i) => (
                <li key={id}>
                  <span class="note">{page.log[i - 1]?.date === date ? "" : date}</span>
                  <span class="note">{time}</span>
                  <span class="small">
                    {words} {by !== "" && <span class="second">{by}</span>}{" "}
                    {canWithdraw && <TakeBack machine={machine} happening={id} words={words} />}
                  </span>
                </li>
              ))}
            </ol>
          </section>
        </div>
      </div>
    </main>
  );
}

/** What was noted by mistake; it stays in the log, and counts no more. */
function TakeBack({ machine, happening, words }: { machine: string; happening: string; words: string }) {
  return (
    <button
      type="button"
      class="plain tiny"
      aria-label={`Take back: ${words}`}
      onClick={async () => {
        const drafts = [{ kind: "happening-withdrawn", happening, because: "Noted by mistake." } as Draft];
        const answer = await ask("propose", { machine, drafts, by: preferences.value.by });
        if (answer.ok) await record(machine, answer.value);
      }}
    >
      Take back
    </button>
  );
}

/** Two dates side by side. Whether something has moved is said only where the two intervals do not meet. */
function Compared({ page }: { page: HistoryPage }) {
  const first = useSignal(0);
  const second = useSignal(page.dates.length - 1);
  const answers = page.dates.map((date, i) => [String(i), `${date}${sameDay(page.dates, i)}`] as const);
  const rows = page.findings.map(({ id, title, unit, rows: epochs }) => ({
    id,
    title,
    unit,
    earlier: epochs[first.value],
    later: epochs[second.value],
  }));
  return (
    <section>
      <h2>Two dates side by side</h2>
      <div class="field-pair">
        <Select
          label="Earlier"
          value={String(first.value)}
          answers={answers}
          onChoose={(i) => {
            first.value = Number(i);
          }}
        />
        <Select
          label="Later"
          value={String(second.value)}
          answers={answers}
          onChoose={(i) => {
            second.value = Number(i);
          }}
        />
      </div>
      <table class="compared">
        <thead>
          <tr>
            <th scope="col">Finding</th>
            <th scope="col" class="num">
              {page.dates[first.value]}
            </th>
            <th scope="col" class="num">
              {page.dates[second.value]}
            </th>
            <th scope="col">changed?</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ id, title, unit, earlier, later }) =>
            earlier && later ? (
              <tr key={id}>
                <th scope="row">
                  {title} <span class="note">{unit}</span>
                </th>
                <td class="num">
                  {earlier.value} ± {earlier.uncertainty}
                </td>
                <td class="num">
                  {later.value} ± {later.uncertainty}
                </td>
                <td>
                  {earlier.high < later.low || later.high < earlier.low ? (
                    <b>yes</b>
                  ) : (
                    <span class="second">no sign of it</span>
                  )}
                </td>
              </tr>
            ) : null,
          )}
        </tbody>
      </table>
    </section>
  );
}

function sameDay(dates: readonly string[], i: number): string {
  const before = dates.slice(0, i).filter((date) => date === dates[i]).length;
  return before === 0 ? "" : ` (${before + 1})`;
}
