import type { EventStore, Photograph } from "../app/event-store.ts";
import { textFromEvents } from "../logbook/write.ts";

/** The logbook of a machine that is in the store: its events in the order in which they arrived, one a line. */
export function exportLogbook(store: EventStore, machine: string): string {
  return textFromEvents(eventsOfMachine(store, machine));
}

/** The pictures that the machine's events name and the store still has, each once. */
export function photographsOf(store: EventStore, machine: string): readonly Photograph[] {
  const named = new Set<string>();
  for (const event of eventsOfMachine(store, machine)) if (event.kind === "photograph-added") named.add(event.sha256);
  return [...named].flatMap((sha256) => store.photograph(machine, sha256) ?? []);
}

function eventsOfMachine(store: EventStore, machine: string) {
  return store.eventsAfter(0, { machine }).map(({ event }) => event);
}
