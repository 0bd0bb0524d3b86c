import { useSignal } from "@preact/signals";
import { isOwner } from "../../live/feed.ts";
import { NumberField } from "../../parts/fields.tsx";
import { Link } from "../../parts/link.tsx";
import { ShareTable } from "../../parts/share-table.tsx";
import { ToldList } from "../../parts/told.tsx";
import { type NumberAsked, typedNumber } from "../../parts/typed-number.ts";
import { machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { Told } from "../../worker/protocol.ts";
import type { DemandChange, StatedDemandPage, WorkDemand } from "../../worker/protocol-work.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { ThingList } from "../moves/thing-list.tsx";
import { write } from "../moves/write.ts";

interface Props {
  readonly machine: string;
  readonly kind: string | null;
  readonly demand: WorkDemand;
  /** Null where only another kind of work is looked at. */
  readonly stated: StatedDemandPage | null;
}

/** What a demand means for the work, why so much is asked, and what would decide it. */
export function DemandGroundsPanel({ machine, kind, demand, stated }: Props) {
  const answer = useAnswer("demand", { machine, kind, demand: demand.id }).value;
  const grounds = answer?.ok ? answer.value : null;
  return (
    <div class="demand-grounds">
      <p>{grounds?.meaning ?? ""}</p>
      {stated !== null && stated.why !== "" && (
        <p class="small">
          <b>Why so much:</b> {stated.why} The least tool that can tell: {lowerFirst(stated.decidedBy)}. Common
          practice, no source.
        </p>
      )}
      {grounds !== null && grounds.doubtFrom.length > 0 && (
        <section class="doubt-from">
          <h4>Where its doubt comes from</h4>
          <ShareTable rows={grounds.doubtFrom} of="Where its doubt comes from, by share" />
          <p class="links">
            <Link to={machineAddress(machine, "readings")}>The readings</Link>
          </p>
        </section>
      )}
      {grounds?.words.map((words) => (
        <p key={words}>{words}</p>
      ))}
      {grounds !== null && grounds.checks.length > 0 && (
        <section>
          <h4>What would decide it</h4>
          <ThingList machine={machine} things={grounds.checks} />
        </section>
      )}
      {stated !== null && isOwner.value && <OwnLimit machine={machine} stated={stated} key={stated.limitValue} />}
    </div>
  );
}

export const limitAsked: Readonly<Record<"mm" | "mm/m", NumberAsked>> = {
  mm: { quantity: "length", from: 0.001, to: 1000 },
  "mm/m": { quantity: "slope", from: 0.001, to: 1000 },
};

/** Makes a change of what is asked and writes it. */
export async function change(machine: string, wanted: DemandChange): Promise<readonly Told[]> {
  const answer = await ask("changeDemand", { machine, change: wanted });
  return answer.ok ? write(machine, answer.value) : answer.told;
}

function OwnLimit({ machine, stated }: { machine: string; stated: StatedDemandPage }) {
  const { id, unit, limitValue, name, usual } = stated;
  const text = useSignal(String(limitValue));
  const told = useSignal<readonly Told[]>([]);
  const { value } = typedNumber(text.value, limitAsked[unit]);
  const make = async (wanted: DemandChange) => {
    told.value = await change(machine, wanted);
  };
  return (
    <details>
      <summary>{usual === "" && name === null ? "Its limit is the usual one" : "Its limit is your own"}</summary>
      <NumberField
        label={`At most, in ${unit}`}
        asked={limitAsked[unit]}
        text={text.value}
        onText={(typed) => {
          text.value = typed;
        }}
      />
      <ToldList told={told.value} />
      <div class="button-row">
        <button
          type="button"
          disabled={value === null || value === limitValue}
          onClick={() => value !== null && void make({ kind: "limit", demand: id, limit: value })}
        >
          Judge it by this
        </button>
        {usual !== "" && (
          <button type="button" onClick={() => void make({ kind: "usual", demand: id })}>
            Back to {usual}
          </button>
        )}
        <button type="button" onClick={() => void make({ kind: "drop", demand: id })}>
          Do not ask for it
        </button>
      </div>
    </details>
  );
}

/** What the kind of work asks and its user does not. */
export function TakeUpAgain({ machine, dropped }: { machine: string; dropped: readonly StatedDemandPage[] }) {
  const told = useSignal<readonly Told[]>([]);
  return (
    <section class="not-asked">
      <h3>Not asked for</h3>
      <ul class="plain-list">
        {dropped.map(({ id, title }) => (
          <li key={id}>
            {title}{" "}
            {isOwner.value && (
              <button
                type="button"
                class="plain small-button"
                aria-label={`Ask for it again: ${title}`}
                onClick={async () => {
                  told.value = await change(machine, { kind: "usual", demand: id });
                }}
              >
                Ask for it again
              </button>
            )}
          </li>
        ))}
      </ul>
      <ToldList told={told.value} />
    </section>
  );
}

function lowerFirst(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? text[0].toLowerCase() + text.slice(1) : text;
}
