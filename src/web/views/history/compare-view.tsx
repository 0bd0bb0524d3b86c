import { Drawing } from "../../parts/drawing.tsx";
import { Select } from "../../parts/fields.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { VerdictMark } from "../../parts/verdict.tsx";
import { goTo, machineAddress } from "../../router.ts";
import type { ComparedPair, ComparePage } from "../../worker/protocol-compare.ts";
import { useAnswer } from "../../worker/use-answer.ts";

/** Before and after any date, knock or move: what moved, what stayed, and whether the machine is still good for its work. */
export function CompareView({ machine, query }: { machine: string; query: URLSearchParams }) {
  const asked = { from: query.get("from"), to: query.get("to"), around: query.get("around") };
  const answer = useAnswer("compare", { machine, ...asked }).value;
  if (!answer?.ok) return <NotThere answer={answer} />;
  const page = answer.value;
  const pair = page.comparison;
  return (
    <main class="compare">
      <Heading words="Before and after" of={page.machine} />
      <TwoTimes machine={machine} page={page} asked={asked} />
      {pair === null ? <NotTwo page={page} /> : <Pair machine={machine} page={page} pair={pair} />}
      <p class="links">
        <Link to={machineAddress(machine, "history")}>History</Link>
      </p>
    </main>
  );
}

function NotTwo({ page }: { page: ComparePage }) {
  return (
    <p>
      {page.epochs.length < 2
        ? "There is nothing to compare yet: measure again after a move, a knock or some weeks."
        : "The first of the two times has to be before the second, with readings on both sides of what happened."}
    </p>
  );
}

interface TimesProps {
  readonly machine: string;
  readonly page: ComparePage;
  readonly asked: { readonly from: string | null; readonly to: string | null };
}

/** The times at which something was measured, each with what came before it. */
function TwoTimes({ machine, page: { epochs, comparison }, asked }: TimesProps) {
  if (epochs.length < 2) return null;
  const answers = epochs.map(({ at, date }) => [at, date] as const);
  // Only as long as a narrow list shows; what came before the time stands below it in full.
  const hint = (chosen: string) => {
    const after = epochs.find(({ at }) => at === chosen)?.after ?? "";
    return after === "" ? "The first readings." : `After ${after}.`;
  };
  const from = comparison?.before ?? asked.from ?? epochs[0].at;
  const to = comparison?.after ?? asked.to ?? epochs[epochs.length - 1].at;
  const go = (first: string, second: string) =>
    goTo(
      `${machineAddress(machine, "history", "compare")}?${new URLSearchParams({ from: first, to: second })}`,
      "replace",
    );
  return (
    <div class="field-pair">
      <Select label="Before" value={from} answers={answers} hint={hint(from)} onChoose={(at) => go(at, to)} />
      <Select label="After" value={to} answers={answers} hint={hint(to)} onChoose={(at) => go(from, at)} />
    </div>
  );
}

function Pair({ machine, page, pair }: { machine: string; page: ComparePage; pair: ComparedPair }) {
  const [before, after] = [pair.before, pair.after].map((time) => page.epochs.find(({ at }) => at === time)?.date);
  return (
    <>
      <p class="headline" role="status">
        {pair.headline}
      </p>
      {pair.between.length > 0 && <p class="small second">In between: {pair.between.join("; ")}.</p>}
      <Changes
        machine={machine}
        pair={pair}
        title="What moved"
        verdict="moved"
        none="Nothing, by clearly more than is not known of it."
      />
      {pair.demands.length > 0 && <StillGood machine={machine} pair={pair} />}
      <Changes
        machine={machine}
        pair={pair}
        title="What stayed"
        verdict="stayed"
        none="Nothing that the readings could show."
      />
      <OpenChanges pair={pair} />
      <NotReadOnBothSides pair={pair} />
      <section aria-labelledby="two-plans">
        <h2 id="two-plans">From above</h2>
        <div class="two-plans">
          <figure>
            <Drawing svg={pair.plans[0]} />
            <figcaption>Before, {before}</figcaption>
          </figure>
          <figure>
            <Drawing svg={pair.plans[1]} />
            <figcaption>After, {after}. Both are drawn at the same exaggeration.</figcaption>
          </figure>
        </div>
      </section>
    </>
  );
}

interface ChangesProps {
  readonly machine: string;
  readonly pair: ComparedPair;
  readonly title: string;
  readonly verdict: "moved" | "stayed";
  readonly none: string;
}

function Changes({ machine, pair, title, verdict, none }: ChangesProps) {
  const rows = pair.changes.filter((change) => change.verdict === verdict);
  return (
    <section aria-labelledby={verdict}>
      <h2 id={verdict}>
        {title}
        {rows.length > 0 && ` (${rows.length})`}
      </h2>
      {rows.length === 0 ? (
        <p>{none}</p>
      ) : (
        <div class="wide-table">
          <table class="demand-table change-table">
            <thead>
              <tr>
                <th scope="col">finding</th>
                <th scope="col" class="num">
                  before ± U
                </th>
                <th scope="col" class="num">
                  after ± U
                </th>
                <th scope="col" class="num">
                  change ± U
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map(({ id, title: name, unit, before, after, change }) => (
                <tr key={id}>
                  <th scope="row">
                    <Link to={machineAddress(machine, "findings", id)}>{name}</Link>, <span class="second">{unit}</span>
                  </th>
                  <td class="num">{before}</td>
                  <td class="num">{after}</td>
                  <td class={`num${verdict === "moved" ? " strong" : ""}`}>{change}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

function OpenChanges({ pair }: { pair: ComparedPair }) {
  const open = pair.changes.filter(({ verdict }) => verdict === "not known");
  if (open.length === 0) return null;
  return (
    <details>
      <summary>
        {open.length === 1 ? "Of one the readings do not say" : `Of ${open.length} the readings do not say`}
      </summary>
      <ul class="plain-list">
        {open.map(({ id, title, unit, change }) => (
          <li key={id}>
            {title}:{" "}
            <span class="second">
              {change} {unit}
            </span>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** What the two times cannot be compared by, and which of them lacks the reading. */
function NotReadOnBothSides({ pair }: { pair: ComparedPair }) {
  const unread = pair.changes.filter(({ verdict }) => verdict === "not read on both sides");
  if (unread.length === 0) return null;
  return (
    <details>
      <summary>Not read on both sides ({unread.length})</summary>
      <p class="small second">
        Whether these have moved or stayed is not said: at one of the two times at least nothing that was read shows
        them.
      </p>
      <ul class="plain-list">
        {unread.map(({ id, title, read }) => (
          <li key={id}>
            {title}: <span class="second">{read}</span>
          </li>
        ))}
      </ul>
    </details>
  );
}

function StillGood({ machine, pair }: { machine: string; pair: ComparedPair }) {
  const out = pair.demands.filter(({ verdict }) => verdict === "out");
  return (
    <section class="still-good" aria-labelledby="still-good">
      <h2 id="still-good">Is it still good for the work?</h2>
      <p>{pair.chance}</p>
      <Drawing svg={pair.picture} />
      <details>
        <summary>The same as a table, with what it was before</summary>
        <table class="demand-table kept-table">
          <thead>
            <tr>
              <th scope="col">demand</th>
              <th scope="col" class="num">
                at most
              </th>
              <th scope="col">before</th>
              <th scope="col">after</th>
            </tr>
          </thead>
          <tbody>
            {pair.demands.map(({ id, title, unit, limit, before, after, verdictBefore, verdict }) => (
              <tr key={id}>
                <th scope="row">{title}</th>
                <td class="num">
                  {limit} {unit}
                </td>
                <td>
                  {before} <VerdictMark verdict={verdictBefore} />
                </td>
                <td>
                  {after} <VerdictMark verdict={verdict} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
      {out.length > 0 && (
        <p>
          <Link class="button act" to={machineAddress(machine, "moves")}>
            Show what brings it back
          </Link>
        </p>
      )}
    </section>
  );
}
