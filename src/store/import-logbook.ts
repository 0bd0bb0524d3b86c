import { randomUUID } from "node:crypto";
import type { Appended, EventStore } from "../app/event-store.ts";
import { knownCatalogue } from "../app/known.ts";
import { refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import type { LogEvent } from "../logbook/events.ts";
import { placesInLogbook, readLogbook, type TornLine } from "../logbook/read.ts";
import { replay } from "../logbook/replay.ts";
import { appendChecked, machineNotThere } from "./append-checked.ts";
import { holdMachine } from "./held-machine.ts";

export interface Imported {
  readonly machine: string;
  /** Whether the machine came with this logbook. */
  readonly isNew: boolean;
  readonly appended: Appended;
  /** A last line that breaks off: it is left out, and its text handed on. */
  readonly torn: TornLine | null;
}

/**
 * Takes a logbook in. Without a machine named it goes to the one that has any of its events, and where none has it
 * becomes a new machine. The same logbook a second time adds nothing. What is wrong is refused whole, with its line;
 * never throws for anything that the text may be. `file` is only a name to put into diagnostics.
 */
export function importLogbook(
  store: EventStore,
  content: string | Uint8Array,
  file: string,
  machine?: string,
): Outcome<Imported> {
  const read = readLogbook(content, file);
  if (!read.ok) return read;
  const { events, torn } = read.value;
  const placeOf = placesInLogbook(read.value);
  const found = machine === undefined ? machineWith(store, events, file) : machineNamed(store, machine, events, file);
  if (!found.ok) return found;
  if (found.value !== null) {
    const appended = appendChecked(store, found.value, events, placeOf);
    if (!appended.ok) return appended;
    const imported = { machine: found.value, isNew: false, appended: appended.value, torn };
    return succeed(imported, [...read.diagnostics, ...appended.diagnostics]);
  }
  const replayed = replay(events, knownCatalogue, placeOf);
  if (!replayed.ok) return refuse(...replayed.diagnostics);
  const id = randomUUID();
  const appended = store.addMachine({ id, demonstration: false }, events);
  return succeed({ machine: id, isNew: true, appended, torn }, [...read.diagnostics, ...replayed.diagnostics]);
}

/** The machine that has any of the events; null where none has. */
function machineWith(store: EventStore, events: readonly LogEvent[], file: string): Outcome<string | null> {
  const found = store.machines().filter(({ id }) => sharesAny(store, id, events));
  if (found.length <= 1) return succeed(found[0]?.id ?? null);
  const listed = found.map(({ id }) => id).join(", ");
  return refuse(refusal("import-of-several-machines", { file }, { listed }));
}

/** A logbook that describes a machine of its own is not mixed into that of another one. */
function machineNamed(store: EventStore, machine: string, events: readonly LogEvent[], file: string): Outcome<string> {
  if (!store.machines().some(({ id }) => id === machine)) return refuse(machineNotThere(store, machine));
  const describes = events.some(({ kind }) => kind === "machine-described");
  if (!describes || sharesAny(store, machine, events)) return succeed(machine);
  return refuse(refusal("import-of-other-machine", { file }, { machine }));
}

function sharesAny(store: EventStore, machine: string, events: readonly LogEvent[]): boolean {
  const held = holdMachine(store, machine).events;
  return events.some(({ id }) => held.has(id));
}
