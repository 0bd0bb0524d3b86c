import type { Appended, EventStore } from "../app/event-store.ts";
import { knownCatalogue } from "../app/known.ts";
import { type Diagnostic, type Place, refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { diagnosticsUpTo } from "../logbook/diagnostics-up-to.ts";
import type { LogEvent } from "../logbook/events.ts";
import type { Catalogue } from "../logbook/known.ts";
import { eventFromJson } from "../logbook/read-event.ts";
import { replay } from "../logbook/replay.ts";
import { lineFromEvent } from "../logbook/write.ts";
import { type HeldMachine, holdMachine } from "./held-machine.ts";

type PlaceOf = (event: LogEvent) => Place;

const byEvent: PlaceOf = ({ id }) => ({ event: id });

/**
 * Adds events to a machine if they make sense together with all that it has; refused whole if they do not. An event that
 * is there already is passed over, one that is there with other content is refused. Warnings are about the events given.
 */
export function appendChecked(
  store: EventStore,
  machine: string,
  events: readonly LogEvent[],
  placeOf: PlaceOf = byEvent,
): Outcome<Appended> {
  if (!store.machines().some(({ id }) => id === machine)) return refuse(machineNotThere(store, machine));
  const sound = soundEvents(events, placeOf);
  if (!sound.ok) return sound;
  const held = holdMachine(store, machine);
  const fresh = freshEvents(held, sound.value, placeOf);
  if (!fresh.ok) return fresh;
  if (fresh.value.length === 0) return succeed({ added: [], passedOver: events.length });
  const checked = check(held, fresh.value, placeOf);
  if (!checked.ok) return checked;
  const { added } = store.append(machine, fresh.value);
  return succeed({ added, passedOver: events.length - added.length }, checked.diagnostics);
}

export function machineNotThere(store: EventStore, machine: string): Diagnostic {
  const listed = store
    .machines()
    .slice(0, 20)
    .map(({ id }) => id)
    .join(", ");
  return refusal("machine-not-there", {}, { machine: machine.slice(0, 60), listed });
}

/** Each event as it is, not as it would be written: a field that the schema does not have must not get lost on the way. */
function soundEvents(events: readonly LogEvent[], placeOf: PlaceOf): Outcome<readonly LogEvent[]> {
  const read = events.map((event) => eventFromJson(JSON.parse(JSON.stringify(event)), placeOf(event)));
  const problems = read.flatMap((outcome) => (outcome.ok ? [] : outcome.diagnostics));
  if (problems.length > 0) return refuse(...diagnosticsUpTo(problems, {}));
  return succeed(read.flatMap((outcome) => (outcome.ok ? [outcome.value] : [])));
}

/** Those that the machine does not have yet, each once; refused where an id stands for something else. */
function freshEvents(held: HeldMachine, events: readonly LogEvent[], placeOf: PlaceOf): Outcome<readonly LogEvent[]> {
  const fresh = new Map<string, LogEvent>();
  const taken: Diagnostic[] = [];
  for (const event of events) {
    const there = held.events.get(event.id) ?? fresh.get(event.id);
    if (there === undefined) fresh.set(event.id, event);
    else if (lineFromEvent(there) !== lineFromEvent(event)) {
      taken.push(refusal("event-id-taken", { ...placeOf(event), field: "id" }, { id: event.id }));
    }
  }
  return taken.length > 0 ? refuse(...diagnosticsUpTo(taken, {})) : succeed([...fresh.values()]);
}

/**
 * Kinds that leave everything before them as sound as it was, and that hang on nothing but definitions, on runs and on
 * the readings they name. All others, rare as they are, are checked with the whole logbook.
 */
const standingAlone: ReadonlySet<string> = new Set<LogEvent["kind"]>([
  "run-begun",
  "reading-taken",
  "reading-withdrawn",
  "reading-restored",
  "run-withdrawn",
  "run-restored",
  "homed",
  "powered-on",
  "knocked",
  "transported",
  "note-added",
  "photograph-added",
]);

/** Whether the replay of all events would take the fresh ones, asked of as few of the others as it hangs on. */
function check(held: HeldMachine, fresh: readonly LogEvent[], placeOf: PlaceOf): Outcome<null> {
  if (fresh.every(({ kind }) => standingAlone.has(kind))) {
    const catalogue: Catalogue = (machine) => {
      held.known ??= knownCatalogue(machine);
      return held.known;
    };
    const some = replay([...held.definitions, ...leanedOn(held, fresh), ...fresh], catalogue, placeOf);
    if (some.ok) return succeed(null, about(fresh, some.diagnostics));
    // What is wrong is told with everything in view: the nearest name may be one that has been left out here.
  }
  const all = replay([...held.events.values(), ...fresh], knownCatalogue, placeOf);
  return all.ok ? succeed(null, about(fresh, all.diagnostics)) : refuse(...about(fresh, all.diagnostics));
}

/** Held events that the fresh ones name: readings, and beginnings of runs. */
function leanedOn(held: HeldMachine, fresh: readonly LogEvent[]): readonly LogEvent[] {
  const named = new Set<LogEvent>();
  const addRun = (run: string) => {
    const begun = held.runs.get(run);
    if (begun !== undefined) named.add(begun);
  };
  for (const event of fresh) {
    if ("run" in event) addRun(event.run);
    if (event.kind !== "reading-withdrawn" && event.kind !== "reading-restored") continue;
    const reading = held.events.get(event.reading);
    if (reading?.kind !== "reading-taken") continue;
    named.add(reading);
    addRun(reading.run);
  }
  return [...named];
}

/** What keeps the events out, wherever it stands, and remarks about themselves; those about others were made before. */
function about(fresh: readonly LogEvent[], diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  if (diagnostics.length === 0) return diagnostics;
  const ids = new Set(fresh.map(({ id }) => id));
  const isTheirs = ({ where }: Diagnostic) => where.event !== undefined && ids.has(where.event);
  return diagnostics.filter((diagnostic) => diagnostic.severity === "refusal" || isTheirs(diagnostic));
}
