import type { EventStore, StoredEvent } from "../app/event-store.ts";
import type { EventOf, LogEvent } from "../logbook/events.ts";
import type { Known } from "../logbook/known.ts";

/** A machine's events as they were last seen in its store, laid out so that one more can be checked quickly. */
export interface HeldMachine {
  readonly events: ReadonlyMap<string, LogEvent>;
  /** What readings are held against, whole: the machine itself and everything it is measured with. */
  readonly definitions: readonly LogEvent[];
  /** The beginning of each run by the run's name. */
  readonly runs: ReadonlyMap<string, LogEvent>;
  /** What is known of the machine as it is described; filled by whoever asks first. */
  known: Known | null;
}

interface Held extends HeldMachine {
  readonly events: Map<string, LogEvent>;
  readonly definitions: LogEvent[];
  readonly runs: Map<string, LogEvent>;
  lastSequence: number;
}

const defining: ReadonlySet<string> = new Set<LogEvent["kind"]>([
  "machine-described",
  "machine-renamed",
  "instrument-added",
  "object-added",
]);

/** A workshop works at few machines at a time; those not used for longest are forgotten and read again when asked for. */
const mostHeld = 8;
const heldIn = new WeakMap<EventStore, Map<string, Held>>();

/**
 * The events of a machine that is in the store, read at most once: asked again, only what has come since is read. What is
 * held is measured against what the store says of the machine, so that nobody has to tell when something was added.
 */
export function holdMachine(store: EventStore, machine: string): HeldMachine {
  const shelf = heldIn.get(store) ?? new Map<string, Held>();
  heldIn.set(store, shelf);
  const stored = store.machines().find(({ id }) => id === machine);
  const isUpToDate = ({ events, lastSequence }: Held) =>
    events.size === stored?.events && lastSequence === stored.lastSequence;
  let held = shelf.get(machine) ?? nothing();
  if (!isUpToDate(held)) takeIn(held, store.eventsAfter(held.lastSequence, { machine }));
  // A machine that has left and come back has other events under its name.
  if (!isUpToDate(held)) {
    held = nothing();
    takeIn(held, store.eventsAfter(0, { machine }));
  }
  // The newest stands last.
  shelf.delete(machine);
  shelf.set(machine, held);
  for (const oldest of shelf.keys()) {
    if (shelf.size <= mostHeld) break;
    shelf.delete(oldest);
  }
  return held;
}

function nothing(): Held {
  return { events: new Map(), definitions: [], runs: new Map(), known: null, lastSequence: 0 };
}

function takeIn(held: Held, added: readonly StoredEvent[]): void {
  for (const { event, sequence } of added) {
    held.events.set(event.id, event);
    held.lastSequence = sequence;
    if (event.kind === "run-begun") held.runs.set((event as EventOf<"run-begun">).run, event);
    if (!defining.has(event.kind)) continue;
    held.definitions.push(event);
    held.known = null;
  }
}
