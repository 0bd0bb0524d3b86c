import * as z from "zod";
import { type EventKind, eventSchemas, type LogEvent } from "./events.ts";

/**
 * One event as the line that stands for it, without its line end. Fields come in the order of the schema, those of free
 * records (choices, roles, packing) by name, so that the same event always gives the same line.
 */
export function lineFromEvent(event: LogEvent): string {
  return JSON.stringify(inOrder(event, orders[event.kind]));
}

/** Events as the text of a logbook, each line with its end, in the order given. */
export function textFromEvents(events: Iterable<LogEvent>): string {
  let text = "";
  for (const event of events) text += `${lineFromEvent(event)}\n`;
  return text;
}

/** Order of fields, and below each that is an object the order within; null for a free record. */
type Order = ReadonlyMap<string, Order | "leaf"> | "by name" | "leaf";

const orders = Object.fromEntries(
  Object.entries(eventSchemas).map(([kind, schema]) => [kind, orderOf(schema)]),
) as Readonly<Record<EventKind, Order>>;

function orderOf(schema: unknown): Order {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable) return orderOf(schema.unwrap());
  if (schema instanceof z.ZodRecord) return "by name";
  if (!(schema instanceof z.ZodObject)) return "leaf";
  return new Map(Object.entries(schema.shape).map(([name, field]) => [name, orderOf(field)]));
}

function inOrder(value: unknown, order: Order): unknown {
  if (order === "leaf" || typeof value !== "object" || value === null) return value;
  const names = order === "by name" ? Object.keys(value).sort() : [...order.keys()];
  const ordered: Record<string, unknown> = {};
  for (const name of names) {
    const field = (value as Readonly<Record<string, unknown>>)[name];
    if (field !== undefined) ordered[name] = inOrder(field, order === "by name" ? "leaf" : order.get(name)!);
  }
  return ordered;
}
