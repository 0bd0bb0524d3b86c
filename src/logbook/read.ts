import { type Diagnostic, type Place, refusal, warning } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { diagnosticsUpTo, mostDiagnostics } from "./diagnostics-up-to.ts";
import type { LogEvent } from "./events.ts";
import { countFields, countNames, jsonPlaces } from "./json-places.ts";
import { textFromBytes, textFromString } from "./logbook-text.ts";
import { eventFromJson } from "./read-event.ts";
import { lineFromEvent } from "./write.ts";

/** A logbook as it was read. */
export interface Logbook {
  readonly file: string;
  /** In the order of the file, every id once. */
  readonly events: readonly LogEvent[];
  /** The line of each event, by the same index; counted from 1. */
  readonly lines: Int32Array;
  /** A last line that breaks off: set aside, its text kept for whoever wants to look at it. */
  readonly torn: TornLine | null;
  /** False where a line to be appended first needs a line end, or the torn line taken away. */
  readonly endsWithLineEnd: boolean;
}

export interface TornLine {
  readonly line: number;
  /** As well as it can be read: half a character at its end stands as the replacement character. */
  readonly text: string;
  /** How many bytes it takes at the end of the file: what to cut off before anything is appended. */
  readonly bytes: number;
}

/**
 * Reads a logbook: JSON Lines, one event a line, in any order. A byte order mark, carriage returns and empty lines are
 * passed over. Never throws. A torn last line is a warning; anything else that is wrong refuses the whole file, because an
 * estimate from some of the readings looks just like one from all of them. `file` is only a name to put into diagnostics.
 */
export function readLogbook(content: string | Uint8Array, file: string): Outcome<Logbook> {
  const text = typeof content === "string" ? textFromString(content) : textFromBytes(content);
  if (!text.ok) {
    return text.fault === "too long"
      ? refuse(refusal("logbook-too-long", { file }))
      : refuse(refusal("logbook-not-text", { file, line: text.line }));
  }
  if (isBlank(text.whole) && isBlank(text.rest)) return refuse(refusal("logbook-empty", { file }));

  const shelf = new Shelf(file);
  let line = 0;
  for (let start = 0; start < text.whole.length; ) {
    const end = text.whole.indexOf("\n", start);
    const lineText = text.whole.slice(start, end);
    start = end + 1;
    line += 1;
    if (isBlank(lineText)) continue;
    const event = eventFromLine(lineText, { file, line }, shelf.faults.length < mostDiagnostics);
    if (event.ok) shelf.keep(event.value, line);
    else if (isFromNewerVersion(event.diagnostics)) return event;
    else if (shelf.isEmpty && isOnePieceOfJson(text.whole + text.rest)) {
      return refuse(refusal("logbook-not-lines", { file, line }));
    } else shelf.fault(event.diagnostics);
  }

  let torn: TornLine | null = null;
  if (!isBlank(text.rest)) {
    line += 1;
    const event = eventFromLine(text.rest, { file, line }, true);
    if (event.ok) shelf.keep(event.value, line);
    else if (isFromNewerVersion(event.diagnostics)) return event;
    else if (event.diagnostics[0]?.code !== "logbook-line-not-json") shelf.fault(event.diagnostics);
    else if (!shelf.isEmpty || text.rest.trimStart().startsWith("{"))
      torn = { line, text: text.rest, bytes: text.restBytes };
    // A file of one line that does not even begin like an event was never a logbook.
    else if (text.rest.includes("\0")) return refuse(refusal("logbook-not-text", { file, line }));
    else shelf.fault(event.diagnostics);
  }

  if (shelf.faults.length > 0) return refuse(...diagnosticsUpTo(shelf.faults, { file }));
  const logbook: Logbook = {
    file,
    events: shelf.events,
    lines: Int32Array.from(shelf.lines),
    torn,
    endsWithLineEnd: text.rest === "",
  };
  return succeed(logbook, torn === null ? [] : [warning("logbook-line-torn", { file, line: torn.line })]);
}

/** Says where each event of a logbook stands, for diagnostics about what the events say together. */
export function placesInLogbook(logbook: Logbook): (event: LogEvent) => Place {
  let lineById: Map<string, number> | null = null;
  return ({ id }) => {
    // Made only when something is wrong.
    lineById ??= new Map(logbook.events.map((event, index) => [event.id, logbook.lines[index]!]));
    const line = lineById.get(id);
    return line === undefined ? { file: logbook.file, event: id } : { file: logbook.file, line, event: id };
  };
}

/** What has been read so far. The same event may come twice, as when two copies of a logbook are put together. */
class Shelf {
  readonly events: LogEvent[] = [];
  readonly lines: number[] = [];
  readonly faults: Diagnostic[] = [];
  readonly #file: string;
  readonly #indexById = new Map<string, number>();

  constructor(file: string) {
    this.#file = file;
  }

  get isEmpty(): boolean {
    return this.events.length === 0 && this.faults.length === 0;
  }

  keep(event: LogEvent, line: number): void {
    const other = this.#indexById.get(event.id);
    if (other === undefined) {
      this.#indexById.set(event.id, this.events.length);
      this.events.push(event);
      this.lines.push(line);
    } else if (lineFromEvent(this.events[other]!) !== lineFromEvent(event)) {
      const where = { file: this.#file, line, field: "id", event: event.id };
      this.faults.push(refusal("event-id-shared", where, { id: event.id, otherLine: this.lines[other]! }));
    }
  }

  fault(diagnostics: readonly Diagnostic[]): void {
    this.faults.push(...diagnostics);
  }
}

/** `closely` is false where what is wrong is only counted any more, so that a long bad file is still refused fast. */
function eventFromLine(text: string, where: Place, closely: boolean): Outcome<LogEvent> {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    const fault = closely ? jsonPlaces(text).fault : null;
    const column = fault === null ? {} : { column: fault.offset + 1 };
    return refuse(refusal("logbook-line-not-json", { ...where, ...column }, { expected: fault?.expected ?? "" }));
  }
  const event = eventFromJson(value, where, closely ? text : undefined);
  if (!event.ok || countNames(text) === countFields(event.value)) return event;
  return fieldsLost(text, event.value, where);
}

/**
 * JSON leaves it open which of two fields of one name counts; here neither does. And a name that means something to
 * every object of the language is no name for a choice or a role.
 */
function fieldsLost(text: string, event: LogEvent, where: Place): Outcome<LogEvent> {
  const { twice, fields } = jsonPlaces(text);
  const place = twice ?? fields.find(({ path }) => path.endsWith("__proto__"));
  if (place === undefined) return succeed(event);
  const data = { field: place.path, listed: "names that are plain words", meant: "" };
  const code = twice === null ? "event-field-unknown" : "event-field-twice";
  return refuse(refusal(code, { ...where, column: place.key + 1, field: place.path }, data));
}

function isFromNewerVersion(diagnostics: readonly Diagnostic[]): boolean {
  return diagnostics[0]?.code === "logbook-from-newer-version";
}

function isOnePieceOfJson(text: string): boolean {
  try {
    JSON.parse(text);
    return text.trim().includes("\n");
  } catch {
    return false;
  }
}

function isBlank(text: string): boolean {
  return text.charCodeAt(0) !== 0x7b && text.trim() === "";
}
