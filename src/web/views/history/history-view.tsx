import { useSignal } from "@preact/signals";
import { isOwner } from "../../live/feed.ts";
import { record } from "../../outbox/outbox.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { EpochTable } from "../../parts/epoch-table.tsx";
import { Select } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { AddPhotograph } from "../../photographs/add-photograph.tsx";
import { Photograph } from "../../photographs/photograph.tsx";
import { preferences } from "../../preferences.ts";
import { goTo, machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { Told } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import type { StageProps } from "../stage-props.ts";
import { CompareView } from "./compare-view.tsx";
import { NoteHappening } from "./note-happening.tsx";

/** Findings over time, before and after, and everything that happened. */
export function HistoryView({ machine, rest, query }: StageProps) {
  return rest[0] === "compare" ? (
    <CompareView machine={machine} query={query} />
  ) : (
    <HistoryBoard machine={machine} query={query} />
  );
}

function HistoryBoard({ machine, query }: Pick<StageProps, "machine" | "query">) {
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
              <p>
                <Link class="button" to={machineAddress(machine, "history", "compare")}>
                  Compare before and after
                </Link>
              </p>
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
          <AddPhotograph key={machine} machine={machine} />
          <section>
            <h2>What happened</h2>
            <ol class="log">
              {page.log.map(({ id, date, time, by, words, takeBack, isChange, photograph }, i) => (
                <li key={id}>
                  <span class="note">{page.log[i - 1]?.date === date ? "" : date}</span>
                  <span class="note">{time}</span>
                  <span class="small">
                    {words} {by !== "" && <span class="second">{by}</span>}{" "}
                    {photograph !== null && <Photograph machine={machine} sha256={photograph} words={words} />}
                    {isChange && (
                      <Link
                        to={`${machineAddress(machine, "history", "compare")}?around=${id}`}
                        label={`Before and after: ${words}`}
                      >
                        Before and after
                      </Link>
                    )}{" "}
                    {(takeBack === "by anybody" || (takeBack === "by the owner" && isOwner.value)) && (
                      <TakeBack machine={machine} event={id} words={words} />
                    )}
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

/** What was noted by mistake; it stays in the log, and counts no more: of a statement, what stood before counts again. */
function TakeBack({ machine, event, words }: { machine: string; event: string; words: string }) {
  const told = useSignal<readonly Told[]>([]);
  return (
    <>
      <button
        type="button"
        class="plain tiny"
        aria-label={`Take back: ${words}`}
        onClick={async () => {
          const answer = await ask("takeEntryBack", { machine, event, by: preferences.value.by });
          told.value = answer.told;
          if (answer.ok) await record(machine, answer.value);
        }}
      >
        Take back
      </button>
      <ToldList told={told.value} />
    </>
  );
}
