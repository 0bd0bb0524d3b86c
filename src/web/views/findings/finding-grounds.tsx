import { useSignal } from "@preact/signals";
import { isOwner } from "../../live/feed.ts";
import { record } from "../../outbox/outbox.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { EpochTable } from "../../parts/epoch-table.tsx";
import { NumberField } from "../../parts/fields.tsx";
import { Link } from "../../parts/link.tsx";
import { ShareTable } from "../../parts/share-table.tsx";
import { ToldList } from "../../parts/told.tsx";
import { type NumberAsked, typedNumber } from "../../parts/typed-number.ts";
import { VerdictMark } from "../../parts/verdict.tsx";
import { preferences } from "../../preferences.ts";
import { machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { Draft, FindingPage, FindingRow, Told } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";

/** One finding: what carries it, what would sharpen it, what it cannot be told from, its history, its limit. */
export function FindingGrounds({ machine, row }: { machine: string; row: FindingRow }) {
  const answer = useAnswer("finding", { machine, finding: row.id }).value;
  const page = answer?.ok ? answer.value : null;
  return (
    <div class="grounds">
      <h2>{row.title}</h2>
      {!row.unread && (
        <p class="big">
          {row.value} ± {row.uncertainty}{" "}
          <small>
            {row.unit}
            {row.limit !== "" && `, limit ${row.limit}`}
          </small>
        </p>
      )}
      {row.verdict && (
        <p>
          <VerdictMark verdict={row.verdict} />
        </p>
      )}
      <p class="small">
        {row.unread ? "What is usual of machines like this is all that is known of it." : row.meaning}{" "}
        {page?.chanceSentence} {page?.homing}
      </p>
      {page === null ? (
        <p class="small second">Working out its grounds.</p>
      ) : (
        <Grounds machine={machine} row={row} page={page} />
      )}
    </div>
  );
}

function Grounds({ machine, row, page }: { machine: string; row: FindingRow; page: FindingPage }) {
  const [best, ...others] = page.sharpenedBy;
  return (
    <>
      <section>
        <h3>What carries it</h3>
        <ShareTable rows={page.carriedBy} />
      </section>
      <section>
        <h3>What it cannot be told from</h3>
        <p class="small">{page.apart}</p>
      </section>
      {best !== undefined && (
        <section class="better">
          <h3>What would sharpen it most</h3>
          <p class="small">{best.words}</p>
          {best.check !== null && (
            <Link
              class={`button${row.verdict === "within" ? "" : " act"}`}
              to={machineAddress(machine, "measure", best.check)}
            >
              Show how it is done
            </Link>
          )}
          {others.map(({ words, check }) => (
            <p class="small" key={words}>
              {words} {check !== null && <Link to={machineAddress(machine, "measure", check)}>Show how</Link>}
            </p>
          ))}
        </section>
      )}
      {page.cure !== null && (
        <section>
          <h3>What would cure it</h3>
          <p class="small">{page.cure}</p>
        </section>
      )}
      {page.history.length > 1 && (
        <section>
          <h3>Its history</h3>
          <Drawing svg={page.historyPlot} frame name={`${row.title} over time`} />
          <EpochTable rows={page.history} />
        </section>
      )}
      <p class="links">
        <Link to={`${machineAddress(machine, "history")}?finding=${row.id}`}>Its history beside what happened</Link>
        <Link to={machineAddress(machine, "readings")}>The readings</Link>
      </p>
      {isOwner.value && <OwnLimit machine={machine} row={row} page={page} key={row.id} />}
    </>
  );
}

const limitAsked: Readonly<Record<string, NumberAsked>> = {
  mm: { quantity: "length", from: 0.001, to: 1000 },
  "mm/m": { quantity: "slope", from: 0.001, to: 1000 },
};

/** The user's own limit takes the place of what is usual. */
function OwnLimit({ machine, row, page }: { machine: string; row: FindingRow; page: FindingPage }) {
  const text = useSignal(page.limitValue === null ? "" : String(page.limitValue));
  const told = useSignal<readonly Told[]>([]);
  const asked = limitAsked[page.limitUnit] ?? limitAsked.mm;
  const { value } = typedNumber(text.value, asked);
  async function set(limit: number | null) {
    const draft = { kind: "limit-set", finding: row.id, limit, unit: page.limitUnit } as Draft;
    const answer = await ask("propose", { machine, drafts: [draft], by: preferences.value.by });
    told.value = answer.told;
    if (answer.ok) await record(machine, answer.value);
  }
  return (
    <details>
      <summary>
        {page.limitIsOwn
          ? "Its limit is your own"
          : page.limitValue === null
            ? "It has no limit"
            : "Its limit is the usual one"}
      </summary>
      <NumberField
        label={`Your limit, in ${row.unit}`}
        asked={asked}
        text={text.value}
        onText={(typed) => {
          text.value = typed;
        }}
      />
      <ToldList told={told.value} />
      <div class="button-row">
        <button type="button" disabled={value === null} onClick={() => void set(value)}>
          Judge it by this
        </button>
        {page.limitIsOwn && (
          <button type="button" onClick={() => void set(null)}>
            Back to the usual one
          </button>
        )}
      </div>
    </details>
  );
}
