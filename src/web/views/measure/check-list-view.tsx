import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { StationRing } from "../../parts/station-ring.tsx";
import { machineAddress } from "../../router.ts";
import type { CheckEntry, CheckList } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { BestChecks } from "./best-checks.tsx";
import { isDone, nextCardOf, type Round, roundsOf, setUpOf } from "./rounds.ts";

/** What can be measured: the round that makes a machine fit to be measured, the short round, and everything else. */
export function CheckListView({ machine }: { machine: string }) {
  const answer = useAnswer("checks", { machine }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const list = answer.value;
  const next = nextCardOf(list)?.card;
  return (
    <main class="check-list">
      <Heading words="Measure" of={list.machine} />
      {next ? <NextCheck machine={machine} next={next} list={list} /> : <BestChecks machine={machine} />}
      <Unfinished machine={machine} list={list} />
      <p class="small">
        <b>Before every caution here.</b> {list.cautionHead}
      </p>
      {roundsOf(list).map((round) => (
        <RoundList key={round.id} machine={machine} round={round} next={list.next} />
      ))}
      <p class="small">
        <Link
          to={`${machineAddress(machine, "measure", "blank")}?of=${[...list.fitToMeasure, ...list.shortRound].map(({ key }) => key).join(",")}`}
        >
          Print both rounds as sheets to fill in at the machine
        </Link>
      </p>
      <section>
        <h2>Every other check</h2>
        <p class="second small">
          In the order in which a machine meets them. A finding names the ones that would sharpen it.
        </p>
        {[...new Set(list.rest.map(({ stage }) => stage))].map((stage) => (
          <Family
            key={stage}
            machine={machine}
            stage={stage}
            entries={list.rest.filter((entry) => entry.stage === stage)}
          />
        ))}
      </section>
    </main>
  );
}

function NextCheck({ machine, next, list }: { machine: string; next: CheckEntry; list: CheckList }) {
  const isGate = list.fitToMeasure.includes(next);
  const done = list.fitToMeasure.filter(({ state }) => state === "passed").length;
  return (
    <section class="next-card" aria-labelledby="next-title">
      <p class="small second">
        {isGate ? `Fit to measure, ${done} of ${list.fitToMeasure.length} passed` : "Short round"}. {next.minutes}{" "}
        minutes.
      </p>
      <h2 id="next-title">{next.title}</h2>
      <p>{next.settles}</p>
      {next.state === "failed" && (
        <p>
          It was not passed: {next.where.join("; ")}. {next.putRight} Then do it again.
        </p>
      )}
      <Link class="button act" to={machineAddress(machine, "measure", next.id) + setUpOf(next)}>
        Show how it is done
      </Link>
    </section>
  );
}

function Unfinished({ machine, list }: { machine: string; list: CheckList }) {
  if (list.unfinished.length === 0) return null;
  return (
    <section>
      <h2>Begun and not finished</h2>
      <ul class="plain-list">
        {list.unfinished.map(({ run, check, title, read, of }) => (
          <li key={run}>
            <Link to={machineAddress(machine, "measure", check, "run", run)}>{title}</Link>{" "}
            <span class="second">
              {read} of {of} stations read
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

interface RoundListProps {
  readonly machine: string;
  readonly round: Round;
  readonly next: string | null;
}

/** A round as numbered cards, done one after the other. */
function RoundList({ machine, round: { id, title, words, cards }, next }: RoundListProps) {
  return (
    <section>
      <h2>{title}</h2>
      <p class="second small">
        {words} <Link to={machineAddress(machine, "measure", id)}>Go through it card by card</Link>
      </p>
      <ol class="round">
        {cards.map((entry, i) => (
          <li key={entry.key} class={entry.key === next ? "now" : ""}>
            <Link to={machineAddress(machine, "measure", entry.id) + setUpOf(entry)}>
              <StationRing number={i + 1} state={entry.key === next ? "now" : isDone(entry) ? "read" : "open"} />
              <b>{entry.title}</b>
              <span class={`small ${entry.state === "failed" ? "out" : "second"}`}>{stateInWords(entry)}</span>
            </Link>
          </li>
        ))}
      </ol>
    </section>
  );
}

/** Checks that are taken at one stage of the machine; on a phone only their names' heading, until it is opened. */
function Family({ machine, stage, entries }: { machine: string; stage: string; entries: readonly CheckEntry[] }) {
  const taken = entries.filter(isDone).length;
  return (
    <details class="check-family" open={matchMedia("(min-width: 700px)").matches}>
      <summary>
        <h3>{`${stage[0]?.toUpperCase()}${stage.slice(1)}`}</h3>{" "}
        <span class="small second">
          {entries.length === 1 ? "1 check" : `${entries.length} checks`}
          {taken > 0 && `, ${taken} taken`}
        </span>
      </summary>
      <CheckTable machine={machine} entries={entries} />
    </details>
  );
}

function CheckTable({ machine, entries }: { machine: string; entries: readonly CheckEntry[] }) {
  return (
    <ul class="all-checks">
      {entries.map((entry) => (
        <li key={entry.id}>
          <Link to={machineAddress(machine, "measure", entry.id)}>
            <b>{entry.title}</b>
            <span class="small second">
              {entry.minutes} min
              {entry.last !== null && `, last ${entry.last}`}
            </span>
            <span class="small">{entry.settles}</span>
          </Link>
        </li>
      ))}
    </ul>
  );
}

function stateInWords({ state, minutes, last }: CheckEntry): string {
  switch (state) {
    case "passed":
      return `passed${last === null ? "" : `, ${last}`}`;
    case "taken":
      return `taken${last === null ? "" : `, ${last}`}`;
    case "failed":
      return "not passed";
    case "not complete":
      return "begun, not complete";
    case "not done":
      return `${minutes} min`;
  }
}
