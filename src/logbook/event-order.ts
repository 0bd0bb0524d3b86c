import { invariant } from "../core/base/invariant.ts";
import { instantFromEventTime } from "./event-time.ts";
import type { EventKind, EventOf, LogEvent } from "./events.ts";

/** One event with its instant in ms since 1970-01-01T00:00Z. */
export interface Timed<Event extends LogEvent = LogEvent> {
  readonly event: Event;
  readonly at: number;
}

/**
 * Events in the order that counts: their own time, ties by id. Where a line stands in the file, or when it arrived, does
 * not matter.
 */
export function inOrderOfTime(events: readonly LogEvent[]): readonly Timed[] {
  const timed = events.map((event) => {
    const at = instantFromEventTime(event.at);
    invariant(at !== null, "an event that was read has a time");
    return { event, at };
  });
  return timed.sort((a, b) => a.at - b.at || (a.event.id < b.event.id ? -1 : 1));
}

/** Those of some kinds, in the same order. */
export function eventsOf<Kind extends EventKind>(
  ordered: readonly Timed[],
  ...kinds: readonly Kind[]
): readonly Timed<EventOf<Kind>>[] {
  const asked: ReadonlySet<string> = new Set(kinds);
  return ordered.filter(({ event }) => asked.has(event.kind)) as unknown as readonly Timed<EventOf<Kind>>[];
}
