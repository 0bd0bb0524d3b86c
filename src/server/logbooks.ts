import type { EventStore, StoredEvent } from "../app/event-store.ts";
import { knownCatalogue } from "../app/known.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { eventsOf, inOrderOfTime } from "../logbook/event-order.ts";
import type { LogEvent } from "../logbook/events.ts";
import { replay } from "../logbook/replay.ts";
import { lineFromEvent } from "../logbook/write.ts";
import { appendChecked } from "../store/append-checked.ts";
import { importLogbook } from "../store/import-logbook.ts";
import { Refused } from "./refusals.ts";

/** What has become of a batch. */
export interface Added {
  readonly added: number;
  readonly passedOver: number;
  /** Of the machine, once the batch was in. */
  readonly lastSequence: number;
}

interface Batch {
  readonly events: readonly LogEvent[];
  readonly settle: (outcome: Outcome<Added>) => void;
  readonly fail: (problem: unknown) => void;
}

/**
 * The logbooks of the store, and the one place where anything is added to them while the server runs. Batches for one
 * machine that come at the same moment are checked and written together, and each alone where they do not fit together.
 */
export class Logbooks {
  readonly #store: EventStore;
  readonly #tell: (added: readonly StoredEvent[]) => void;
  readonly #waiting = new Map<string, Batch[]>();

  constructor(store: EventStore, tell: (added: readonly StoredEvent[]) => void) {
    this.#store = store;
    this.#tell = tell;
  }

  has(machine: string): boolean {
    return this.#store.machines().some(({ id }) => id === machine);
  }

  /** In the order in which they arrived. */
  events(machine: string): readonly LogEvent[] {
    return this.#store.eventsAfter(0, { machine }).map(({ event }) => event);
  }

  lastSequence(machine: string): number {
    return this.#store.machines().find(({ id }) => id === machine)?.lastSequence ?? 0;
  }

  /** A new machine; the same machine with the same events sent once more is only passed over. */
  create(machine: string, events: readonly LogEvent[], demonstration = false): Outcome<Added> {
    if (this.has(machine)) {
      const there = new Map(this.events(machine).map((event) => [event.id, lineFromEvent(event)]));
      const isSame = events.length > 0 && events.every((event) => there.get(event.id) === lineFromEvent(event));
      if (!isSame) throw new Refused("machine-there");
      return succeed({ added: 0, passedOver: events.length, lastSequence: this.lastSequence(machine) });
    }
    const ids = new Set(events.map(({ id }) => id));
    if (ids.size < events.length) throw new Refused("body-unfit");
    const replayed = replay(events, knownCatalogue);
    if (!replayed.ok) return replayed;
    const { added } = this.#store.addMachine({ id: machine, demonstration }, events);
    this.#tell(added);
    return succeed({ added: added.length, passedOver: 0, lastSequence: this.lastSequence(machine) });
  }

  /** A whole logbook; without a machine it goes to the one that has any of its events, or becomes a new one. */
  import(content: Uint8Array, machine?: string): Outcome<Added & { readonly id: string; readonly isNew: boolean }> {
    const imported = importLogbook(this.#store, content, "logbook", machine);
    if (!imported.ok) return imported;
    const { machine: id, isNew, appended } = imported.value;
    this.#tell(appended.added);
    const { added, passedOver } = appended;
    const value = { id, isNew, added: added.length, passedOver, lastSequence: this.lastSequence(id) };
    return succeed(value, imported.diagnostics);
  }

  /** Resolves once the events are on the disk. */
  add(machine: string, events: readonly LogEvent[]): Promise<Outcome<Added>> {
    return new Promise((settle, fail) => {
      const batch = { events, settle, fail };
      const waiting = this.#waiting.get(machine);
      if (waiting) waiting.push(batch);
      else {
        this.#waiting.set(machine, [batch]);
        setImmediate(() => this.#addWaiting(machine));
      }
    });
  }

  delete(machine: string): void {
    this.#store.deleteMachine(machine);
  }

  #addWaiting(machine: string): void {
    const batches = this.#waiting.get(machine) ?? [];
    this.#waiting.delete(machine);
    if (batches.length > 1 && this.#addTogether(machine, batches)) return;
    for (const batch of batches) this.#addAlone(machine, batch);
  }

  /** False where they do not fit together, or were not written: then nothing has been done. */
  #addTogether(machine: string, batches: readonly Batch[]): boolean {
    let outcome: ReturnType<typeof appendChecked>;
    try {
      outcome = this.#append(
        machine,
        batches.flatMap(({ events }) => events),
      );
    } catch {
      return false;
    }
    if (!outcome.ok) return false;
    // Of an event that came in two batches, the first has added it.
    const unclaimed = new Set(outcome.value.added.map(({ event }) => event.id));
    const lastSequence = this.lastSequence(machine);
    for (const { events, settle } of batches) {
      const added = events.filter(({ id }) => unclaimed.delete(id)).length;
      settle(succeed({ added, passedOver: events.length - added, lastSequence }));
    }
    return true;
  }

  #addAlone(machine: string, { events, settle, fail }: Batch): void {
    try {
      const outcome = this.#append(machine, events);
      if (!outcome.ok) settle(refuse(...outcome.diagnostics));
      else {
        const { added, passedOver } = outcome.value;
        settle(succeed({ added: added.length, passedOver, lastSequence: this.lastSequence(machine) }));
      }
    } catch (problem) {
      fail(problem);
    }
  }

  #append(machine: string, events: readonly LogEvent[]): ReturnType<typeof appendChecked> {
    // It may have been deleted while this waited.
    if (!this.has(machine)) throw new Refused("machine-unknown");
    const outcome = appendChecked(this.#store, machine, events);
    if (outcome.ok && outcome.value.added.length > 0) this.#tell(outcome.value.added);
    return outcome;
  }
}

/** The name that was given last; null where no event gives one. */
export function machineNameFrom(events: readonly LogEvent[]): string | null {
  const named = eventsOf(inOrderOfTime(events), "machine-described", "machine-renamed").at(-1)?.event;
  if (named === undefined) return null;
  return named.kind === "machine-renamed" ? named.name : named.machine.name;
}
