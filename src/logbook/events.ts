import * as z from "zod";
import { happeningEvents } from "./schema/happening.ts";
import { machineEvents } from "./schema/machine.ts";
import { measuringEvents } from "./schema/measuring.ts";
import { readingEvents } from "./schema/reading.ts";
import { remarkEvents } from "./schema/remark.ts";
import { wishEvents } from "./schema/wish.ts";

/** The schema of every kind of event, in the order in which the guide explains them. */
export const eventSchemas = {
  ...machineEvents,
  ...measuringEvents,
  ...readingEvents,
  ...happeningEvents,
  ...wishEvents,
  ...remarkEvents,
} as const;

export type EventKind = keyof typeof eventSchemas;

// Texts with a brand are objects to the compiler, so texts go first.
type Immutable<T> = T extends string ? T : T extends object ? { readonly [K in keyof T]: Immutable<T[K]> } : T;

/** One event of a given kind, as a line of the logbook holds it: envelope and payload side by side. */
export type EventOf<Kind extends EventKind> = Immutable<z.infer<(typeof eventSchemas)[Kind]>>;

/**
 * One event. Numbers and texts are as entered; nothing is ever edited, a correction is another event. Order is by `at`
 * (the instant, offset honoured), ties by `id`.
 */
export type LogEvent = { [Kind in EventKind]: EventOf<Kind> }[EventKind];

export const eventKinds = Object.keys(eventSchemas) as readonly EventKind[];

export function isEventKind(word: string): word is EventKind {
  return Object.hasOwn(eventSchemas, word);
}

/** All kinds as one schema: what the JSON Schema is made from. Reading goes by `kind` and asks one schema only. */
export const anyEventSchema = z.discriminatedUnion(
  "kind",
  Object.values(eventSchemas) as [(typeof eventSchemas)[EventKind], ...(typeof eventSchemas)[EventKind][]],
);
