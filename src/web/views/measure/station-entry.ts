import { type Signal, signal } from "@preact/signals";
import { draftUnder, keepDraft } from "../../outbox/drafts.ts";
import { record } from "../../outbox/outbox.ts";
import type { Feedback } from "../../parts/feedback-line.tsx";
import { toldInLines } from "../../parts/told.tsx";
import { preferences, preferredUnit } from "../../preferences.ts";
import { goTo, machineAddress } from "../../router.ts";
import { ask } from "../../worker/client.ts";
import type { Draft, ReadingVerdict, RunPage } from "../../worker/protocol.ts";
import { entryText, fieldsOf, nextField } from "./entry-text.ts";

/** What was saved last, so that it can be taken back while it still stands in the feedback line. */
interface Saved {
  readonly verdict: ReadingVerdict;
  readonly replaced: readonly string[];
}

/** The entry of one run, station by station: what is typed, what is being saved, what was said of it. */
export interface StationEntry {
  /** Null until the first reading has begun it. */
  readonly run: Signal<string | null>;
  readonly now: Signal<string | null>;
  readonly texts: Signal<readonly string[]>;
  /** Field by field, whether it was typed into: what was filled in is nobody's reading. */
  readonly typed: Signal<readonly boolean[]>;
  readonly field: Signal<number>;
  /** Counts the stations that were gone to: the fields take the focus each time. */
  readonly turn: Signal<number>;
  readonly feedback: Signal<Feedback | null>;
  readonly saved: Signal<Saved | null>;
  /** The reading that stood far off and is to be read again, if that is what the station waits for. */
  readonly again: Signal<string | null>;
  readonly unit: Signal<string | null>;
  /** How each reading of this visit sat with the rest. */
  readonly verdicts: Signal<ReadonlyMap<string, ReadingVerdict>>;
  readonly isDone: Signal<boolean>;
  readonly busy: Signal<boolean>;
}

interface EntryDraft {
  readonly station: string;
  readonly texts: readonly string[];
  readonly typed: readonly boolean[];
}

/** The entry of a run, or with null of one that begins with its first reading; half a reading stands there again. */
export function stationEntry(place: RunPlace, run: string | null, now: string | null): StationEntry {
  const draft = draftUnder<EntryDraft>(draftName(place, run));
  const left = draft !== null && (now === null || now === draft.station) ? draft : null;
  return {
    run: signal(run),
    now: signal(now ?? left?.station ?? null),
    texts: signal(left?.texts ?? []),
    typed: signal(left?.typed ?? []),
    field: signal(0),
    turn: signal(0),
    feedback: signal(null),
    saved: signal(null),
    again: signal(null),
    unit: signal(preferredUnit()),
    verdicts: signal(new Map()),
    isDone: signal(false),
    busy: signal(false),
  };
}

/** Keeps what is typed into the fields over a reload, until the function returned is called. */
export function keepTyped(entry: StationEntry, place: RunPlace): () => void {
  return keepDraft<EntryDraft>(
    () => draftName(place, entry.run.value),
    () => {
      const [station, texts] = [entry.now.value, entry.texts.value];
      if (station === null || texts.every((text) => text.trim() === "")) return null;
      return { station, texts, typed: entry.typed.value };
    },
  );
}

function draftName({ machine, check, setUp }: RunPlace, run: string | null): string {
  return `entry ${machine} ${check} ${run ?? setUp}`;
}

/** Where a run stands and how it is told to the worker. */
export interface RunPlace {
  readonly machine: string;
  readonly check: string;
  /** How a run that has not been begun is set up, as it stands in the address. */
  readonly setUp: string;
}

/** Goes to a station, or with null to the end of the run. What was said of the last reading stays until the next. */
export function goToStation(entry: StationEntry, key: string | null): void {
  entry.texts.value = [];
  entry.typed.value = [];
  entry.field.value = 0;
  entry.again.value = null;
  entry.isDone.value = key === null;
  if (key !== null) entry.now.value = key;
  entry.turn.value += 1;
}

/** The next station that has not been read, counted on from `now`; null where none is left but those in `besides`. */
export function nextOpen({ stations, readings }: RunPage, now: string, besides: Iterable<string> = []): string | null {
  const read = new Set(readings.filter(({ withdrawn }) => withdrawn === null).map(({ station }) => station));
  for (const station of besides) read.add(station);
  const at = stations.findIndex(({ key }) => key === now);
  const inOrder = [...stations.slice(at + 1), ...stations.slice(0, at + 1)];
  return inOrder.find(({ key }) => !read.has(key))?.key ?? null;
}

/** Enter: on to the next field, or the whole station is taken. */
export async function enter(entry: StationEntry, page: RunPage, place: RunPlace): Promise<void> {
  const fields = fieldsOf(page.entry);
  const next = nextField(fields, entry.field.value);
  if (next !== null && (entry.texts.value[entry.field.value] ?? "").trim() !== "") {
    entry.field.value = next;
    return;
  }
  await take(entry, page, place, entryText(page.entry, entry.texts.value));
}

/** Takes one reading: it is kept on the device first, then shown, then judged aloud. */
export async function take(entry: StationEntry, page: RunPage, place: RunPlace, text: string): Promise<void> {
  const station = entry.now.value;
  if (entry.busy.value || station === null) return;
  if (text.replaceAll(":", "").trim() === "") {
    entry.feedback.value = {
      tone: "refused",
      at: "",
      strong: "Nothing is typed yet.",
      rest: "",
      second: "Type the reading, or skip the station.",
    };
    return;
  }
  entry.busy.value = true;
  try {
    const into = entry.run.value ?? page.setup;
    const answer = await ask("readOne", {
      machine: place.machine,
      into,
      station,
      text,
      unit: page.entry.kind === "verdict" ? "" : page.entry.unit,
      again: entry.again.value,
      by: preferences.value.by,
    });
    if (!answer.ok) {
      const first = answer.told.find(({ refuses }) => refuses) ?? answer.told[0];
      const [what, remedy] = first ? toldInLines(first) : ["This cannot be read here.", ""];
      entry.feedback.value = {
        tone: "refused",
        at: "",
        strong: what,
        rest: "",
        second: remedy,
      };
      return;
    }
    const { events, verdict, replaced } = answer.value;
    await record(place.machine, events);
    entry.verdicts.value = new Map(entry.verdicts.value).set(station, verdict);
    entry.saved.value = { verdict, replaced };
    if (entry.run.value === null)
      goTo(machineAddress(place.machine, "measure", place.check, "run", verdict.run), "replace");
    entry.run.value = verdict.run;
    tell(entry, page, verdict, replaced);
    // What stands far off makes nothing known better, whatever the fit says of it.
    if (verdict.fits !== "far") void sayWhatIsKnownBetter(entry, place.machine, verdict);
    if (verdict.fits === "far") {
      entry.texts.value = [];
      entry.typed.value = [];
      entry.field.value = 0;
      entry.again.value = verdict.reading;
      return;
    }
    // The page may lag behind by a reading or two; what was read on this visit counts at once.
    goToStation(entry, nextOpen(page, station, entry.verdicts.value.keys()));
  } finally {
    entry.busy.value = false;
  }
}

function tell(entry: StationEntry, page: RunPage, verdict: ReadingVerdict, replaced: readonly string[]): void {
  const number = page.stations.find(({ key }) => key === verdict.station)?.number;
  const at = number === undefined ? "" : `Station ${number}`;
  const tone =
    verdict.fits === "far" || verdict.fits === "failed"
      ? "far"
      : ["fits", "passed"].includes(verdict.fits)
        ? "good"
        : "plain";
  entry.feedback.value = {
    tone,
    at,
    strong: verdict.strong,
    rest: verdict.rest,
    second: replaced.length === 0 ? "" : "What stood apart is withdrawn; it stays in the logbook.",
  };
}

/** The second line comes when the whole fit has been worked out anew. */
async function sayWhatIsKnownBetter(entry: StationEntry, machine: string, verdict: ReadingVerdict): Promise<void> {
  const words = await ask("knownBetter", { machine });
  const standing = entry.feedback.value;
  const isStill =
    entry.saved.value?.verdict.reading === verdict.reading && standing !== null && standing.tone !== "refused";
  if (words !== "" && isStill && standing.second === "") entry.feedback.value = { ...standing, second: words };
}

/** Takes the last reading back: it stays in the logbook, withdrawn, and its station is open again. */
export async function undo(entry: StationEntry, machine: string): Promise<void> {
  const saved = entry.saved.value;
  if (saved === null) return;
  const drafts: Draft[] = [
    { kind: "reading-withdrawn", reading: saved.verdict.reading, because: "Undone at once." } as Draft,
  ];
  for (const reading of saved.replaced) drafts.push({ kind: "reading-restored", reading } as Draft);
  const answer = await ask("propose", { machine, drafts, by: preferences.value.by });
  if (!answer.ok) return;
  await record(machine, answer.value);
  const verdicts = new Map(entry.verdicts.value);
  verdicts.delete(saved.verdict.station);
  entry.verdicts.value = verdicts;
  entry.saved.value = null;
  entry.feedback.value = {
    tone: "plain",
    at: "",
    strong: "Taken back.",
    rest: " The reading counts no more.",
    second: "",
  };
  goToStation(entry, saved.verdict.station);
}
