import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import { record } from "../../outbox/outbox.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { ToldList } from "../../parts/told.tsx";
import { preferences } from "../../preferences.ts";
import { machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { Draft, RunEntry, Told } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import type { StageProps } from "../stage-props.ts";

/** Every reading that was ever taken, by run; the odd ones marked, each can be withdrawn and restored. */
export function ReadingsView({ machine, query }: StageProps) {
  const answer = useAnswer("readings", { machine }).value;
  const onlyOdd = useSignal(false);
  if (!answer?.ok) return <NotThere answer={answer} />;
  const runs = answer.value;
  const asked = query.get("run");
  const odd = runs.reduce((count, run) => count + run.readings.filter((reading) => reading.odd !== "").length, 0);
  const shown = onlyOdd.value
    ? runs.filter((run) => run.concern !== "" || run.readings.some((reading) => reading.odd !== ""))
    : runs;
  return (
    <main class="readings">
      <Heading words="Readings" />
      <p class="small second">
        {runs.length === 0
          ? "None has been taken yet."
          : `${runs.length === 1 ? "One run" : `${runs.length} runs`}, the latest first. Nothing is ever deleted: what is withdrawn stays, and counts no more.`}
      </p>
      {odd > 0 && (
        <label class="tick not-printed">
          <input
            type="checkbox"
            checked={onlyOdd.value}
            onChange={(event) => {
              onlyOdd.value = event.currentTarget.checked;
            }}
          />
          <span>Only runs with a reading that stands away from the rest ({odd})</span>
        </label>
      )}
      {shown.map((run) => (
        <RunBox key={run.run} machine={machine} run={run} open={asked === run.run} />
      ))}
    </main>
  );
}

function RunBox({ machine, run, open }: { machine: string; run: RunEntry; open: boolean }) {
  const box = useRef<HTMLDetailsElement>(null);
  const isOdd = run.readings.some(({ odd }) => odd !== "");
  useLayoutEffect(() => {
    if (open) box.current?.scrollIntoView({ block: "start" });
  }, [open]);
  return (
    <details
      class={`run-box${run.withdrawn === null ? "" : " withdrawn"}`}
      open={open || isOdd || run.concern !== ""}
      ref={box}
    >
      <summary>
        <b>{run.title}</b> {run.how !== "" && <span class="second">({run.how})</span>}
        <span class="second small">
          {" "}
          <span class="nowrap">{run.date}</span>,{" "}
          {run.readings.length === 1 ? "one reading" : `${run.readings.length} readings`}
          {run.withdrawn !== null && ", withdrawn"}
          {isOdd && <strong>, one stands away</strong>}
        </span>
      </summary>
      <p class="small second">
        {[run.instrument, run.note, run.factor === "" ? "" : `read times ${run.factor}`]
          .filter((part) => part !== "")
          .join("; ")}{" "}
        <Link to={machineAddress(machine, "measure", run.check, "run", run.run)}>Add to this run</Link>
      </p>
      {run.withdrawn !== null && <p class="small">Withdrawn: {run.withdrawn}</p>}
      {run.concern !== "" && <p class="concern">{run.concern}</p>}
      <Misread machine={machine} run={run} />
      <table class="reading-table">
        <thead>
          <tr>
            <th scope="col">no</th>
            <th scope="col">station</th>
            <th scope="col" class="num">
              reading{run.unit === "" ? "" : `, ${run.unit}`}
            </th>
            <th scope="col">
              <span class="hide">what to do</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {run.readings.map((reading) => (
            <tr key={reading.id} class={reading.withdrawn !== null || run.withdrawn !== null ? "withdrawn" : ""}>
              <td class="strong">{reading.number > 0 ? reading.number : ""}</td>
              <th scope="row">
                {reading.station}
                {reading.place !== "" && <span class="second small"> {reading.place}</span>}
                {reading.odd !== "" && <strong class="block"> odd: {reading.odd} away</strong>}
                {reading.withdrawn !== null && <span class="second block"> withdrawn: {reading.withdrawn}</span>}
              </th>
              <td class="num">{reading.text}</td>
              <td class="does">
                {reading.withdrawn === null ? (
                  <Withdraw machine={machine} what="reading" id={reading.id} of={`${run.title}, ${reading.station}`} />
                ) : (
                  <Restore machine={machine} what="reading" id={reading.id} of={`${run.title}, ${reading.station}`} />
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {run.plot !== "" && (
        <details>
          <summary>How they lie about the fit</summary>
          <Drawing svg={run.plot} frame name={`Residuals of ${run.title}`} />
        </details>
      )}
      <p>
        {run.withdrawn === null ? (
          <Withdraw machine={machine} what="run" id={run.run} of={run.title} />
        ) : (
          <Restore machine={machine} what="run" id={run.run} of={run.title} />
        )}
      </p>
    </details>
  );
}

interface ActProps {
  readonly machine: string;
  readonly what: "reading" | "run";
  readonly id: string;
  readonly of: string;
}

/** "Withdraw, because …": a reason is always asked for, since somebody asks for it a year later. */
function Withdraw({ machine, what, id, of }: ActProps) {
  const isOpen = useSignal(false);
  const because = useSignal("");
  const told = useSignal<readonly Told[]>([]);
  if (!isOpen.value) {
    return (
      <button
        type="button"
        class="plain small-button"
        aria-label={`Withdraw ${what === "run" ? "the whole run" : "this reading"}: ${of}`}
        onClick={() => {
          isOpen.value = true;
        }}
      >
        {what === "run" ? "Withdraw the whole run" : "Withdraw"}
      </button>
    );
  }
  return (
    <form
      class="withdraw"
      onSubmit={async (event) => {
        event.preventDefault();
        const payload =
          what === "run" ? { kind: "run-withdrawn", run: id } : { kind: "reading-withdrawn", reading: id };
        told.value = await propose(machine, { ...payload, because: because.value } as Draft);
        if (told.value.length === 0) isOpen.value = false;
      }}
    >
      <label>
        Because{" "}
        <input
          // biome-ignore lint/a11y/noAutofocus: it opens where the user has just pressed
          autoFocus
          maxLength={500}
          value={because.value}
          onInput={(event) => {
            because.value = event.currentTarget.value;
          }}
        />
      </label>
      <button type="submit" disabled={because.value.trim() === ""}>
        Withdraw
      </button>
      <button
        type="button"
        class="plain"
        onClick={() => {
          isOpen.value = false;
        }}
      >
        Leave it
      </button>
      <ToldList told={told.value} />
    </form>
  );
}

function Restore({ machine, what, id, of }: ActProps) {
  return (
    <button
      type="button"
      class="plain small-button"
      aria-label={`Let it count again: ${of}`}
      onClick={() =>
        void propose(
          machine,
          (what === "run" ? { kind: "run-restored", run: id } : { kind: "reading-restored", reading: id }) as Draft,
        )
      }
    >
      Let it count again
    </button>
  );
}

/** A run that was read in another unit, or with the other sign, is put right at one touch. */
function Misread({ machine, run }: { machine: string; run: RunEntry }) {
  const answer = useAnswer("findings", { machine }).value;
  const concern = answer?.ok
    ? answer.value.concerns.find((one) => one.kind === "misread" && one.run === run.run)
    : undefined;
  const factor = concern?.factor;
  if (!factor) return null;
  return (
    <button
      type="button"
      onClick={() =>
        void propose(machine, {
          kind: "run-reinterpreted",
          run: run.run,
          factor: factor.value,
          because: factor.because,
        } as Draft)
      }
    >
      Read the whole run times {Number(factor.value.toPrecision(6))}
    </button>
  );
}

async function propose(machine: string, draft: Draft): Promise<readonly Told[]> {
  const answer = await ask("propose", { machine, drafts: [draft], by: preferences.value.by });
  if (!answer.ok) return answer.told;
  await record(machine, answer.value);
  return [];
}
