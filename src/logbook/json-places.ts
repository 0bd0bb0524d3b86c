/** Where a field stands in a line: offset of its key (if it has one) and of its value, in UTF-16 units from 0. */
export interface FieldPlace {
  readonly path: string;
  readonly key: number;
  readonly value: number;
}

/** What a line of JSON comes to when one only wants to know where things stand in it. */
export interface JsonPlaces {
  readonly fields: readonly FieldPlace[];
  /** A field whose name stands twice in one object, with the place of the second. */
  readonly twice: FieldPlace | null;
  /** The first place where the line stops being JSON, and what could have stood there. */
  readonly fault: JsonFault | null;
}

export interface JsonFault {
  readonly offset: number;
  readonly expected:
    | "value"
    | "name"
    | "colon"
    | "comma or end"
    | "end of text"
    | "end of line"
    | "escape"
    | "less depth";
}

/** A path as diagnostics write it: names joined by points. */
export function pathFrom(parts: readonly PropertyKey[]): string {
  return parts.map(String).join(".");
}

class Stop extends Error {
  readonly fault: JsonFault;
  constructor(fault: JsonFault) {
    super("not JSON");
    this.fault = fault;
  }
}

// Deeper than any event by far, shallower than the stack.
const deepest = 200;
const blank = /[ \t\r\n]*/y;
const number = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const escapePattern = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;

/**
 * Walks one JSON text [RFC 8259] and notes where its fields stand. Engines word their own complaints differently and some
 * give no position, so this is what line and column of a diagnostic come from. Slow and thorough: only for lines in which
 * something is wrong.
 */
export function jsonPlaces(text: string): JsonPlaces {
  const fields: FieldPlace[] = [];
  let twice: FieldPlace | null = null;
  let at = 0;

  const fail = (expected: JsonFault["expected"]): never => {
    throw new Stop({ offset: at, expected });
  };
  const skipBlank = (): void => {
    blank.lastIndex = at;
    blank.test(text);
    at = blank.lastIndex;
  };
  const readText = (): string => {
    const start = at;
    at += 1;
    for (;;) {
      const code = text.charCodeAt(at);
      if (Number.isNaN(code) || code < 0x20) fail("end of text");
      if (code === 0x22) break;
      if (code === 0x5c) {
        escapePattern.lastIndex = at;
        if (!escapePattern.test(text)) fail("escape");
        at = escapePattern.lastIndex;
      } else at += 1;
    }
    at += 1;
    return JSON.parse(text.slice(start, at)) as string;
  };
  const readValue = (path: readonly PropertyKey[]): void => {
    if (path.length > deepest) fail("less depth");
    const first = text[at];
    if (first === "{") readMembers(path);
    else if (first === "[") readItems(path);
    else if (first === '"') readText();
    else {
      const word = ["true", "false", "null"].find((candidate) => text.startsWith(candidate, at));
      if (word !== undefined) at += word.length;
      else {
        number.lastIndex = at;
        if (!number.test(text)) fail("value");
        at = number.lastIndex;
      }
    }
  };
  const readMembers = (path: readonly PropertyKey[]): void => {
    const names = new Set<string>();
    at += 1;
    skipBlank();
    if (text[at] === "}") {
      at += 1;
      return;
    }
    for (;;) {
      skipBlank();
      if (text[at] !== '"') fail("name");
      const key = at;
      const name = readText();
      skipBlank();
      if (text[at] !== ":") fail("colon");
      at += 1;
      skipBlank();
      const place = { path: pathFrom([...path, name]), key, value: at };
      fields.push(place);
      if (names.has(name)) twice ??= place;
      names.add(name);
      readValue([...path, name]);
      skipBlank();
      if (text[at] === "}") break;
      if (text[at] !== ",") fail("comma or end");
      at += 1;
    }
    at += 1;
  };
  const readItems = (path: readonly PropertyKey[]): void => {
    at += 1;
    skipBlank();
    if (text[at] === "]") {
      at += 1;
      return;
    }
    for (let index = 0; ; index += 1) {
      skipBlank();
      fields.push({ path: pathFrom([...path, index]), key: at, value: at });
      readValue([...path, index]);
      skipBlank();
      if (text[at] === "]") break;
      if (text[at] !== ",") fail("comma or end");
      at += 1;
    }
    at += 1;
  };

  try {
    skipBlank();
    readValue([]);
    skipBlank();
    if (at < text.length) fail("end of line");
    return { fields, twice, fault: null };
  } catch (stop) {
    if (stop instanceof Stop) return { fields, twice, fault: stop.fault };
    throw stop;
  }
}

/** How many names of fields a text holds that is known to be JSON: its colons outside texts. */
export function countNames(json: string): number {
  let names = 0;
  let insideText = false;
  for (let index = 0; index < json.length; index += 1) {
    const code = json.charCodeAt(index);
    if (code === 0x22) insideText = !insideText;
    else if (insideText) {
      if (code === 0x5c) index += 1;
    } else if (code === 0x3a) names += 1;
  }
  return names;
}

/** How many fields a value has, those of its parts included. */
export function countFields(value: unknown): number {
  if (typeof value !== "object" || value === null) return 0;
  if (Array.isArray(value)) return value.reduce<number>((sum, item) => sum + countFields(item), 0);
  let fields = 0;
  for (const key in value) fields += 1 + countFields((value as Record<string, unknown>)[key]);
  return fields;
}
