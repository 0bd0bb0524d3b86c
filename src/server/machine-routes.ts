import { type Context, Hono } from "hono";
import type { EventStore } from "../app/event-store.ts";
import type { Diagnostic } from "../core/base/diagnostic.ts";
import type { Outcome } from "../core/base/outcome.ts";
import { mostDiagnostics } from "../logbook/diagnostics-up-to.ts";
import type { LogEvent } from "../logbook/events.ts";
import { eventFromJson } from "../logbook/read-event.ts";
import { textFromEvents } from "../logbook/write.ts";
import type { Live } from "./live.ts";
import { type Logbooks, machineNameFrom } from "./logbooks.ts";
import { type RefusalCode, Refused, toldDiagnostic } from "./refusals.ts";
import { bytesOf, jsonObjectOf, mediaTypeOf } from "./request-body.ts";
import { mayAdd } from "./roles.ts";
import { owner, paired, type ServerEnv } from "./visitor.ts";

const mostBytesOfEvents = 1_000_000;
const mostBytesOfLogbook = 64_000_000;
const pageOfEvents = 5000;
const logbookTypes = new Set(["application/x-ndjson", "application/jsonl", "text/plain"]);

export interface MachineParts {
  readonly store: EventStore;
  readonly logbooks: Logbooks;
  readonly live: Live;
  /** Puts a machine's logbook and photographs into files before the machine is deleted. */
  readonly keepExport: (machine: string, name: string) => void;
}

/** Machines and their events. */
export function machineRoutes({ store, logbooks, live, keepExport }: MachineParts): Hono<ServerEnv> {
  const app = new Hono<ServerEnv>();

  app.get("/machines", paired, (c) => c.json(store.machines()));

  app.post("/machines", owner, async (c) => {
    const body = await jsonObjectOf(c, mostBytesOfEvents);
    const { id, events } = onlyFields(body, ["id", "events"]);
    if (typeof id !== "string" || !/^[0-9a-f]{32}$/.test(id)) throw new Refused("body-unfit");
    const { lastSequence } = accepted(logbooks.create(id, eventsFrom(events)));
    return c.json({ lastSequence }, 201);
  });

  // Before the routes of one machine, whose id is never this word.
  app.post("/machines/import", owner, async (c) => {
    if (!logbookTypes.has(mediaTypeOf(c))) throw new Refused("type-unfit");
    const into = c.req.query("machine");
    if (into !== undefined && !logbooks.has(into)) throw new Refused("machine-unknown");
    const imported = logbooks.import(await bytesOf(c, mostBytesOfLogbook), into);
    const { isNew, ...told } = accepted(imported, "logbook-refused");
    return c.json({ ...told, diagnostics: imported.diagnostics.map(toldDiagnostic) }, isNew ? 201 : 200);
  });

  app.delete("/machines/:id", owner, async (c) => {
    const id = knownMachine(c, logbooks);
    const { name: typed } = onlyFields(await jsonObjectOf(c, 2000), ["name"]);
    const name = machineNameFrom(logbooks.events(id)) ?? id;
    if (typeof typed !== "string" || typed.trim() !== name.trim()) throw new Refused("name-differs");
    keepExport(id, name);
    logbooks.delete(id);
    live.publishDeleted(id);
    return c.body(null, 204);
  });

  app.get("/machines/:id/events", paired, (c) => {
    const id = knownMachine(c, logbooks);
    const page = store.eventsAfter(placeFrom(c.req.query("after")), { machine: id, most: pageOfEvents });
    const events = page.map(({ sequence, event }) => ({ sequence, event }));
    return c.json({ events, lastSequence: logbooks.lastSequence(id) });
  });

  app.post("/machines/:id/events", paired, async (c) => {
    const id = knownMachine(c, logbooks);
    const { events: values } = onlyFields(await jsonObjectOf(c, mostBytesOfEvents), ["events"]);
    const events = eventsFrom(values);
    const { role } = c.var.visitor!;
    if (!events.every(({ kind }) => mayAdd(role, kind))) throw new Refused("owner-only");
    return c.json(accepted(await logbooks.add(id, events)));
  });

  app.get("/machines/:id/export", paired, (c) => {
    const events = logbooks.events(knownMachine(c, logbooks));
    return c.body(textFromEvents(events), 200, {
      "Content-Type": "application/x-ndjson; charset=utf-8",
      "Content-Disposition": `attachment; filename="${fileNameFor(machineNameFrom(events) ?? "machine")}.jsonl"`,
    });
  });

  return app;
}

/** The machine that the address names. */
export function knownMachine(c: Context<ServerEnv>, logbooks: Logbooks): string {
  const id = c.req.param("id") ?? "";
  if (!logbooks.has(id)) throw new Refused("machine-unknown");
  return id;
}

/** A place in the sequence; the beginning where none is named. */
export function placeFrom(text: string | undefined): number {
  if (text === undefined) return 0;
  if (!/^\d{1,15}$/.test(text)) throw new Refused("address-unfit");
  return Number(text);
}

/** A name as part of a file's name: letters and digits of the Latin alphabet, the rest as hyphens. */
export function fileNameFor(name: string): string {
  const plain = name.normalize("NFKD").replaceAll(/[^A-Za-z0-9]+/g, "-");
  return plain.replaceAll(/^-+|-+$/g, "").slice(0, 60) || "machine";
}

function accepted<T>(outcome: Outcome<T>, otherwise: RefusalCode = "events-refused"): T {
  if (!outcome.ok) throw new Refused(otherwise, { diagnostics: outcome.diagnostics });
  return outcome.value;
}

/** A field more than known is as wrong as one less. */
function onlyFields<Name extends string>(
  body: Readonly<Record<string, unknown>>,
  names: readonly Name[],
): Readonly<Record<Name, unknown>> {
  if (Object.keys(body).some((name) => !(names as readonly string[]).includes(name))) throw new Refused("body-unfit");
  return body as Readonly<Record<Name, unknown>>;
}

/** Each value held to the schema of its kind; a diagnostic says as its line which one of them it is about. */
function eventsFrom(values: unknown): readonly LogEvent[] {
  if (!Array.isArray(values)) throw new Refused("body-unfit");
  const events: LogEvent[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const [index, value] of values.entries()) {
    const outcome = eventFromJson(value, { line: index + 1 });
    if (outcome.ok) events.push(outcome.value);
    else diagnostics.push(...outcome.diagnostics);
    if (diagnostics.length >= mostDiagnostics) break;
  }
  if (diagnostics.length > 0) throw new Refused("events-refused", { diagnostics });
  return events;
}
