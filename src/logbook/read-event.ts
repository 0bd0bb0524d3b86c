import { type Place, refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { eventKinds, eventSchemas, isEventKind, type LogEvent } from "./events.ts";
import { nearestWord } from "./nearest-word.ts";
import { formatVersion } from "./schema/envelope.ts";
import { describeFound, diagnosticsFromIssues } from "./schema-diagnostics.ts";
import { type JsonObject, upcast } from "./upcast.ts";

/**
 * One event from a value that JSON gave: lifted to the present version and held against the schema of its kind. `line` is
 * the text it came from, if there is one, for the columns of what is wrong.
 */
export function eventFromJson(value: unknown, where: Place, line?: string): Outcome<LogEvent> {
  if (!isJsonObject(value)) return refuse(refusal("logbook-line-not-event", where));
  const { v } = value;
  if (typeof v !== "number" || !Number.isInteger(v) || v < 1) {
    const found = v === undefined ? "" : describeFound(v);
    return refuse(refusal("event-version-unfit", { ...where, field: "v" }, { found }));
  }
  if (v > formatVersion) {
    return refuse(refusal("logbook-from-newer-version", where, { version: v, known: formatVersion }));
  }
  const event = upcast(value, v);
  const { kind } = event;
  if (typeof kind !== "string" || !isEventKind(kind)) {
    const [found, meant] = typeof kind === "string" ? [kind.slice(0, 60), nearestWord(kind, eventKinds)] : ["", null];
    return refuse(refusal("event-kind-unknown", { ...where, field: "kind" }, { found, meant: meant ?? "" }));
  }
  const schema = eventSchemas[kind];
  const result = schema.safeParse(event);
  if (result.success) return succeed(result.data as LogEvent);
  // In a lifted event fields may have moved, so columns of the line would point at the wrong ones.
  const text = v === formatVersion ? line : undefined;
  return refuse(...diagnosticsFromIssues(result.error.issues, event, schema, where, text));
}

function isJsonObject(value: unknown): value is JsonObject {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
