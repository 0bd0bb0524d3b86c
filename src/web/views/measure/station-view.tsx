import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { Drawing } from "../../parts/drawing.tsx";
import { FeedbackLine } from "../../parts/feedback-line.tsx";
import { Heading } from "../../parts/heading.tsx";
import { Link } from "../../parts/link.tsx";
import { NotThere } from "../../parts/not-there.tsx";
import { NumberPad } from "../../parts/number-pad.tsx";
import { StationRing } from "../../parts/station-ring.tsx";
import { machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { RunPage, SetupChoice } from "../../worker/protocol.ts";
import { useAnswer } from "../../worker/use-answer.ts";
import { EntryFields } from "./entry-fields.tsx";
import { fieldsOf } from "./entry-text.ts";
import { ReadTable } from "./read-table.tsx";
import { RunDone } from "./run-done.tsx";
import { fillSecondLeaf, withTyped } from "./second-leaf.ts";
import { choiceFromQuery } from "./setup-query.ts";
import {
  enter,
  goToStation,
  keepTyped,
  nextOpen,
  type RunPlace,
  type StationEntry,
  stationEntry,
  take,
  undo,
} from "./station-entry.ts";

interface StationProps {
  readonly machine: string;
  readonly check: string;
  /** Null until the first reading has begun the run. */
  readonly run: string | null;
  readonly query: URLSearchParams;
}

/** At the machine: one station at a time, its picture, its fields, and how the last reading sits. */
export function StationView({ machine, check, run, query }: StationProps) {
  const place: RunPlace = { machine, check, setUp: query.toString() };
  const held = useRef<StationEntry | null>(null);
  const heldRun = held.current?.run.peek() ?? null;
  const setup = useRef<SetupChoice | null>(null);
  // The first reading gives the run its address; any other run is another entry.
  if (held.current === null || (heldRun !== null && heldRun !== run)) {
    held.current = stationEntry(place, run, query.get("station"));
    setup.current = null;
  }
  const entry = held.current;
  // The address of a run that has been begun says nothing of its set-up: the logbook does.
  setup.current ??= { instrument: null, objects: {}, options: {}, conditions: {}, ...choiceFromQuery(check, query) };
  const answer = useAnswer("run", {
    machine,
    run: entry.run.value ?? setup.current,
    now: entry.now.value,
    unit: entry.unit.value,
  }).value;
  const last = useRef<RunPage | null>(null);
  if (answer?.ok) last.current = answer.value;
  const page = last.current;

  useEffect(() => keepTyped(entry, place), [entry]);

  useEffect(() => {
    const isOpen = () => entry.now.value === null && !entry.isDone.value;
    if (page === null || !isOpen()) return;
    // The page may be one that is remembered from an earlier visit: where to go on, the logbook knows as it stands now.
    void ask("run", { machine, run: entry.run.value ?? page.setup, now: null, unit: entry.unit.value }).then(
      (fresh) => {
        if (fresh.ok && isOpen()) goToStation(entry, nextOpen(fresh.value, fresh.value.stations.at(-1)?.key ?? ""));
      },
    );
  }, [page]);

  if (page === null || (answer !== null && !answer.ok)) return <NotThere answer={answer} />;
  const at = page.stations.find(({ key }) => key === entry.now.value) ?? null;
  return (
    <div class="at-machine">
      <header class="top">
        <Link class="button plain" to={machineAddress(machine, "measure", check)}>
          Stop
        </Link>
        <Heading words={page.title} />
        <Progress page={page} now={entry.isDone.value ? null : entry.now.value} />
      </header>
      {entry.isDone.value || at === null ? (
        <RunDone page={page} entry={entry} place={place} />
      ) : (
        <AtStation page={page} entry={entry} place={place} at={at} />
      )}
    </div>
  );
}

/** Few stations as rings, many as a count. */
function Progress({ page, now }: { page: RunPage; now: string | null }) {
  const read = new Set(page.readings.filter(({ withdrawn }) => withdrawn === null).map(({ station }) => station));
  const number = page.stations.find(({ key }) => key === now)?.number ?? null;
  const label = number === null ? "All stations read" : `Station ${number} of ${page.stations.length}`;
  if (page.stations.length <= 4) {
    return (
      <span class="count" role="img" aria-label={label}>
        {page.stations.map((station) => (
          <StationRing
            key={station.key}
            number={station.number}
            state={station.key === now ? "now" : read.has(station.key) ? "read" : "open"}
          />
        ))}
      </span>
    );
  }
  return (
    <span class="count" role="img" aria-label={label}>
      {number !== null && <StationRing number={number} state="now" />}
      <span class="small">{number === null ? `${page.stations.length} read` : `of ${page.stations.length}`}</span>
    </span>
  );
}

interface AtStationProps {
  readonly page: RunPage;
  readonly entry: StationEntry;
  readonly place: RunPlace;
  readonly at: RunPage["stations"][number];
}

function AtStation({ page, entry, place, at }: AtStationProps) {
  const ahead = useRef<string[]>([]);
  const input = useRef<HTMLInputElement | null>(null);
  const showsDetail = useSignal(false);
  const isVerdict = page.entry.kind === "verdict";
  const fields = fieldsOf(page.entry);

  /** One key, from the pad or typed ahead while the last reading was being saved. */
  async function press(key: string) {
    if (entry.busy.value) {
      ahead.current.push(key);
      return;
    }
    if (key === "Enter") {
      await enter(entry, page, place);
      await typeAhead();
    } else if (key === "±") change((text) => (/^[-−]/.test(text) ? text.slice(1) : `−${text}`));
    else if (key === "Backspace" || key.length === 1)
      change((text) => {
        if (isTyped()) return typedInto(input.current, text, key);
        // What was filled in gives way whole to what is typed, unless another leaf is laid to it.
        return key === "+" ? text + key : key === "Backspace" ? "" : key;
      });
    input.current?.focus();
  }

  async function typeAhead() {
    while (ahead.current.length > 0 && !entry.busy.value) await press(ahead.current.shift() as string);
  }

  const isTyped = () => entry.typed.value[entry.field.value] ?? false;

  function change(how: (text: string) => string) {
    const i = entry.field.value;
    setText(i, how(entry.texts.value[i] ?? ""));
  }

  function setText(i: number, text: string) {
    entry.typed.value = withTyped(entry.typed.value, i);
    put(i, text);
    if (fields[i].asks === "goes") void fillSecond(i);
  }

  function put(i: number, text: string) {
    entry.texts.value = fields.map((_, k) => (k === i ? text : (entry.texts.value[k] ?? "")));
  }

  function fillSecond(i: number) {
    const turn = entry.turn.value;
    return fillSecondLeaf(
      {
        goes: () => entry.texts.value[i] ?? "",
        isTheirs: () => entry.turn.value !== turn || entry.field.value === i + 1 || (entry.typed.value[i + 1] ?? false),
        put: (text) => put(i + 1, text),
      },
      nextLeaf,
    );
  }

  /** Not even the thinnest leaf: that one is what does not go, and Enter leads on from there. */
  async function noneGoes() {
    const { part } = fields[entry.field.value];
    const [goes, second] = ["goes", "doesNotGo"].map((asks) =>
      fields.findIndex((field) => field.part === part && field.asks === asks),
    );
    const turn = entry.turn.value;
    const thinnest = await nextLeaf("0");
    if (entry.turn.value !== turn || entry.busy.value) return;
    put(goes, "");
    put(second, thinnest);
    entry.typed.value = withTyped(withTyped(entry.typed.value, goes), second);
    entry.field.value = second;
  }

  const nextLeaf = (goes: string) =>
    ask("nextLeaf", {
      machine: place.machine,
      instrument: page.setup.instrument ?? "",
      goes,
      unit: page.entry.unit,
    });

  const number = at.number;
  const stations = page.stations;
  const step = (by: number) =>
    goToStation(entry, stations[number - 1 + by]?.key ?? (by > 0 ? nextOpen(page, at.key) : at.key));
  const canUndo = entry.saved.value !== null;
  const isAgain = entry.again.value !== null;
  const isLast = nextOpen(page, at.key, [at.key, ...entry.verdicts.value.keys()]) === null;
  const lastRead = entry.saved.value?.verdict.station ?? null;
  return (
    <main
      class={`station n${Math.max(fields.length, 1)}${isVerdict ? " by-verdict" : ""}${showsDetail.value ? " shows-how" : ""}`}
    >
      {page.caution !== "" && (
        <p class="caution-line">
          <svg class="dwg" viewBox="0 0 30 27" aria-hidden="true">
            <path class="wide" d="M15 2L28 25H2z" />
            <path class="wide" d="M15 10V17M15 20V22" />
          </svg>
          <strong>{page.caution}</strong>
        </p>
      )}
      <div class="station-picture">
        {showsDetail.value && page.detail !== "" ? (
          <div class="detail">
            <Drawing svg={page.detail} />
          </div>
        ) : (
          <div class="plan">
            <Drawing svg={page.plan} />
          </div>
        )}
        <div class="station-words">
          <p class="say" id="station-say">
            {at.words}.
          </p>
          {isVerdict && <p class="small second">{page.sign}</p>}
          {(at.place !== "" || at.nominal !== "") && (
            <p class="small second">
              {[at.place, at.nominal === "" ? "" : `reads ${at.nominal}`].filter((part) => part !== "").join("; ")}
            </p>
          )}
          {page.detail !== "" && (
            <button
              type="button"
              class="plain small-button"
              aria-expanded={showsDetail.value}
              onClick={() => {
                showsDetail.value = !showsDetail.value;
              }}
            >
              {showsDetail.value ? "Show where" : "Show how"}
            </button>
          )}
        </div>
      </div>
      <div class="station-entry">
        {isVerdict ? (
          <VerdictKeys onAnswer={(passed) => void take(entry, page, place, passed ? "yes" : "no")} station={at.key} />
        ) : (
          <EntryFields
            page={page}
            entry={entry}
            station={at.key}
            setText={setText}
            press={press}
            input={input}
            ahead={ahead.current}
            onTouched={() => {
              if (hidesKeys()) showsDetail.value = false;
            }}
          />
        )}
        <FeedbackLine feedback={entry.feedback.value}>
          {canUndo && (
            <button type="button" class="plain small-button" onClick={() => void undo(entry, place.machine)}>
              Undo
            </button>
          )}
        </FeedbackLine>
        {!isVerdict && (
          <NumberPad
            special={specialKey(page)}
            hasSpace={page.entry.unit === "in"}
            onNoneGoes={page.entry.kind === "leaves" ? () => void noneGoes() : undefined}
            enter={isAgain ? <>Read again</> : isLast ? "Finish" : "Next"}
            onKey={(key) => void press(key)}
          />
        )}
        <button
          type="button"
          class="act back-to-keys"
          onClick={() => {
            showsDetail.value = false;
            input.current?.focus();
          }}
        >
          Back to the keys
        </button>
        <div class="row">
          <button type="button" disabled={number === 1} onClick={() => step(-1)}>
            Back
          </button>
          <button type="button" onClick={() => step(1)}>
            Skip
          </button>
          {isAgain ? (
            <button
              type="button"
              onClick={() => goToStation(entry, nextOpen(page, at.key, entry.verdicts.value.keys()))}
            >
              Keep it
            </button>
          ) : (
            <button
              type="button"
              disabled={lastRead === null}
              onClick={() => lastRead !== null && goToStation(entry, lastRead)}
            >
              Repeat
            </button>
          )}
        </div>
      </div>
      <ReadSoFar page={page} entry={entry} now={at.key} />
    </main>
  );
}

/** Where the screen is small the picture of how it is read takes the place of the keys. */
function hidesKeys(): boolean {
  return matchMedia("(max-width: 699px), (orientation: landscape) and (max-height: 480px)").matches;
}

/** A key of the pad in the place of what is selected, or where the caret stands. */
function typedInto(input: HTMLInputElement | null, text: string, key: string): string {
  const start = input?.selectionStart ?? text.length;
  const end = input?.selectionEnd ?? text.length;
  if (key !== "Backspace") return text.slice(0, start) + key + text.slice(end);
  return start === end
    ? text.slice(0, Math.max(0, start - 1)) + text.slice(end)
    : text.slice(0, start) + text.slice(end);
}

function specialKey({ entry }: RunPage): Parameters<typeof NumberPad>[0]["special"] {
  if (entry.kind === "leaves") return { key: "+", words: "+ leaf", says: "Add a leaf" };
  // Beside the fields there is room for a sign as well.
  if (entry.unit === "in") return { key: "/", words: "/", says: "Fraction stroke" };
  return entry.signed ? { key: "±", words: "±", says: "Plus or minus" } : null;
}

function VerdictKeys({ onAnswer, station }: { onAnswer: (passed: boolean) => void; station: string }) {
  const first = useRef<HTMLButtonElement>(null);
  useEffect(() => first.current?.focus(), [station]);
  return (
    <fieldset
      class="verdict-keys"
      onKeyDown={(event) => {
        if (/^[1yY]$/.test(event.key)) onAnswer(true);
        if (/^[0nN]$/.test(event.key)) onAnswer(false);
      }}
    >
      <legend class="hide">Is it so?</legend>
      <button type="button" ref={first} class="act" aria-describedby="station-say" onClick={() => onAnswer(true)}>
        Yes
      </button>
      <button type="button" aria-describedby="station-say" onClick={() => onAnswer(false)}>
        No
      </button>
    </fieldset>
  );
}

/** On a large screen, what has been read stands beside the pad. */
function ReadSoFar({ page, entry, now }: { page: RunPage; entry: StationEntry; now: string }) {
  return (
    <section class="read-so-far" aria-label="Read so far">
      <ReadTable page={page} entry={entry} now={now} />
    </section>
  );
}
