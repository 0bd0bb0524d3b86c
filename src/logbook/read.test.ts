import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { anyEvent, someEvents } from "../../tests/logbook/event-arbitraries.ts";
import { sampleEvent, sampleId, soundLogbook } from "../../tests/logbook/sample-events.ts";
import { wordsForDiagnostic } from "../core/base/diagnostic-words.ts";
import type { Outcome } from "../core/base/outcome.ts";
import { mostDiagnostics } from "./diagnostics-up-to.ts";
import { type Logbook, readLogbook } from "./read.ts";
import { lineFromEvent, textFromEvents } from "./write.ts";

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const sound = textFromEvents(soundLogbook());

function eventsIn(outcome: Outcome<Logbook>) {
  if (!outcome.ok) throw new Error(outcome.diagnostics.map(({ code }) => code).join(", "));
  return outcome.value.events;
}

/** Code, line, column and field of the first thing wrong. */
function firstFault(content: string | Uint8Array) {
  const outcome = readLogbook(content, "shed.jsonl");
  if (outcome.ok) return null;
  const { code, where, data } = outcome.diagnostics[0]!;
  // A diagnostic without all of its data would read "undefined" to the user.
  expect(Object.values(wordsForDiagnostic(code, data)).join(" ")).not.toMatch(/undefined|NaN|\[object/);
  expect(where.file).toBe("shed.jsonl");
  return { code, line: where.line, column: where.column, field: where.field, data };
}

/** A sound logbook with one reading written as given in place of its forms. */
function withReading(forms: string): string {
  const envelope = `"v":1,"id":"${sampleId(9)}","at":"2026-03-14T16:22:05+01:00","kind":"reading-taken"`;
  return `${sound}{${envelope},"run":"gap-1","station":"front left",${forms}}\n`;
}

describe("reading a logbook", () => {
  test("passes over a byte order mark, carriage returns, empty lines and blanks", () => {
    const text = `\ufeff\r\n${sound.replaceAll("\n", "  \r\n\r\n")}   \n`;
    expect(eventsIn(readLogbook(text, "a"))).toEqual(soundLogbook());
    expect(eventsIn(readLogbook(bytesOf(text), "a"))).toEqual(soundLogbook());
  });

  test("passes over a byte order mark right before the first event", () => {
    expect(eventsIn(readLogbook(`\ufeff${sound}`, "a"))).toEqual(soundLogbook());
    expect(eventsIn(readLogbook(bytesOf(`\ufeff${sound}`), "a"))).toEqual(soundLogbook());
    expect(eventsIn(readLogbook(bytesOf(`\ufeff${lineFromEvent(soundLogbook()[0]!)}`), "a"))).toHaveLength(1);
  });

  test("takes a whole last line without a line end, and says that one is missing", () => {
    const outcome = readLogbook(sound.trimEnd(), "a");
    expect(eventsIn(outcome)).toHaveLength(5);
    expect(outcome.ok && outcome.value.endsWithLineEnd).toBe(false);
    expect(outcome.diagnostics).toEqual([]);
  });

  test("knows the line of every event", () => {
    const outcome = readLogbook(`\n${sound}`, "a");
    expect(outcome.ok && [...outcome.value.lines]).toEqual([2, 3, 4, 5, 6]);
  });

  test("takes the same event twice as one, however its fields are ordered", () => {
    const event = soundLogbook()[0]!;
    const options = { "b c": 1, a: "x", B: true };
    const run = sampleEvent(9, { kind: "run-begun", run: "r", check: "travel", options });
    const otherOptions = { ...run, options: { B: true, a: "x", "b c": 1 } } as typeof run;
    expect(lineFromEvent(otherOptions)).toBe(lineFromEvent(run));
    const turned = JSON.stringify(Object.fromEntries(Object.entries(event).reverse()));
    expect(eventsIn(readLogbook(`${sound}${turned}\n`, "a"))).toEqual(soundLogbook());
  });

  test("refuses two different events of one id and names both lines", () => {
    const other = lineFromEvent({ ...soundLogbook()[3]!, goes: 0.55 } as never);
    expect(firstFault(`${sound}${other}\n`)).toMatchObject({
      code: "event-id-shared",
      line: 6,
      field: "id",
      data: { otherLine: 4 },
    });
  });

  test.each([
    ["", "logbook-empty"],
    ["\ufeff \r\n\n", "logbook-empty"],
    ["PK\u0003\u0004\0\0", "logbook-not-text"],
    ["{}\n\0\0\n", "logbook-not-text"],
    [`[\n${sound.trimEnd().replaceAll("\n", ",\n")}\n]\n`, "logbook-not-lines"],
    [JSON.stringify(soundLogbook()[0], null, 2), "logbook-not-lines"],
    ["x,y,reading\n1,2,3\n", "logbook-line-not-json"],
    ["nonsense", "logbook-line-not-json"],
    [JSON.stringify(soundLogbook()), "logbook-line-not-event"],
    ["42\n", "logbook-line-not-event"],
    ["null\n", "logbook-line-not-event"],
  ])("refuses %j as %s", (content, code) => {
    expect(firstFault(content)?.code).toBe(code);
  });

  test("refuses bytes that are no UTF-8 and names their line", () => {
    const bad = Uint8Array.from([...bytesOf(`${sound}{"x":"`), 0xff, 0xfe, ...bytesOf('"}\n')]);
    expect(firstFault(bad)).toMatchObject({ code: "logbook-not-text", line: 6 });
  });

  test("tells up to twenty things and then how many more there are", () => {
    const outcome = readLogbook(`${"oops\n".repeat(33)}${sound}`, "a");
    expect(outcome.diagnostics).toHaveLength(mostDiagnostics + 1);
    expect(outcome.diagnostics.at(-1)).toMatchObject({ code: "logbook-more", data: { count: 13 } });
  });
});

describe("a line that breaks off", () => {
  test("is set aside with a warning, and its text is kept", () => {
    const outcome = readLogbook(`${sound}{"v":1,"id":"0195`, "a");
    expect(eventsIn(outcome)).toEqual(soundLogbook());
    expect(outcome.ok && outcome.value.torn).toEqual({ line: 6, text: '{"v":1,"id":"0195', bytes: 17 });
    expect(outcome.diagnostics).toMatchObject([{ code: "logbook-line-torn", severity: "warning", where: { line: 6 } }]);
  });

  test("may be what a power cut leaves: half a character, or a block of zero bytes", () => {
    for (const tail of [Uint8Array.of(0x7b, 0x22, 0xc3), new Uint8Array(512)]) {
      const outcome = readLogbook(Uint8Array.from([...bytesOf(sound), ...tail]), "a");
      expect(eventsIn(outcome)).toEqual(soundLogbook());
      expect(outcome.diagnostics.map(({ code }) => code)).toEqual(["logbook-line-torn"]);
      // What is cut off the file is counted in its own bytes, not in those of a text that had to be mended.
      expect(outcome.ok && outcome.value.torn?.bytes).toBe(tail.length);
    }
    const asText = readLogbook(`${sound}{"by":"ö😀`, "a");
    expect(asText.ok && asText.value.torn?.bytes).toBe(bytesOf('{"by":"ö😀').length);
  });

  test("anywhere else is a refusal, with the column where it stops being JSON", () => {
    expect(firstFault(`${sound}{"v":1,"id":"0195\n${sound}`)).toMatchObject({
      code: "logbook-line-not-json",
      line: 6,
      column: 18,
      data: { expected: "end of text" },
    });
  });
});

describe("versions", () => {
  test("a file with one event of a newer version is refused whole, whatever else is wrong with it", () => {
    const newer = '{"v":2,"id":"anything","shape":"unknown"}\n';
    const fault = firstFault(`oops\n${sound}${newer}`);
    expect(fault).toMatchObject({ code: "logbook-from-newer-version", line: 7, data: { version: 2, known: 1 } });
    expect(readLogbook(`oops\n${newer}`, "a").diagnostics).toHaveLength(1);
  });

  test.each(["0", "1.5", '"1"', "null"])("the version %s is none", (v) => {
    expect(firstFault(`{"v":${v}}\n`)).toMatchObject({ code: "event-version-unfit", field: "v" });
  });
});

describe("what is wrong with a field", () => {
  const line = (body: Record<string, unknown>) => `${sound}${JSON.stringify(sampleEvent(9, body))}\n`;

  test("an unknown kind, with the one that may be meant", () => {
    expect(firstFault(line({ kind: "reading-take" }))).toMatchObject({
      code: "event-kind-unknown",
      line: 6,
      data: { found: "reading-take", meant: "reading-taken" },
    });
  });

  test("an unknown field, with its column and the name that may be meant", () => {
    const text = withReading('"unit":"mm","vaule":0.2');
    expect(firstFault(text)).toMatchObject({
      code: "event-field-unknown",
      field: "vaule",
      column: text.split("\n")[5]!.indexOf('"vaule"') + 1,
      data: { meant: "value" },
    });
    // That the reading then has no form at all goes without saying.
    expect(readLogbook(text, "a").diagnostics).toHaveLength(1);
  });

  test("a field of a part, by its path", () => {
    const machine = { ...soundLogbook()[0], kind: undefined };
    const body = {
      kind: "machine-described",
      machine: { ...(machine as { machine?: object }).machine, travelMm: { x: -600, y: 500 } },
    };
    const codes = readLogbook(line(body), "a").diagnostics.map(({ code, where }) => [code, where.field]);
    expect(codes).toEqual([
      ["event-field-beyond", "machine.travelMm.x"],
      ["event-field-missing", "machine.travelMm.z"],
    ]);
    const fault = firstFault(line(body));
    expect(fault).toMatchObject({ data: { found: "−600", bound: "20 to 5000" } });
    expect(fault?.column).toBe(line(body).split("\n")[5]!.indexOf("-600") + 1);
  });

  test("a field that stands twice, even if both say the same", () => {
    const text = withReading('"unit":"mm","value":0.2,"value":0.2');
    expect(firstFault(text)).toMatchObject({
      code: "event-field-twice",
      field: "value",
      column: text.split("\n")[5]!.lastIndexOf('"value"') + 1,
    });
  });

  test("a name that no plain record can hold", () => {
    const run = '"kind":"run-begun","run":"r","check":"travel","options":{"__proto__":"x"}';
    const text = `${sound}{"v":1,"id":"${sampleId(9)}","at":"2026-03-14T16:22:05+01:00",${run}}\n`;
    expect(firstFault(text)).toMatchObject({ code: "event-field-unknown", field: "options.__proto__" });
  });

  test.each([
    ['"at":"2026-03-14T16:22:05"', "at", "event-time"],
    ['"at":"2026-02-30T16:22:05Z"', "at", "event-time"],
    ['"id":"0195A3B2-0000-7000-8000-000000000001"', "id", "event-id"],
    ['"by":""', "by", "name"],
    ['"by":7', "by", "text"],
  ])("%s is refused as no %s", (field, name, form) => {
    const parts: Record<string, string> = {
      id: `"id":"${sampleId(9)}"`,
      at: '"at":"2026-03-14T16:22:05+01:00"',
      by: '"by":"one of us"',
      [name]: field,
    };
    const text = `${sound}{"v":1,${Object.values(parts).join(",")},"kind":"homed"}\n`;
    const fault = firstFault(text);
    expect(readLogbook(text, "a").diagnostics).toHaveLength(1);
    expect(fault).toMatchObject({ code: "event-field-unfit", field: name, line: 6, data: { form } });
  });

  test.each([
    ['"unit":"mm"', "reading-form"],
    ['"unit":"mm","value":1,"goes":1', "reading-form"],
    ['"passed":true,"value":1', "reading-form"],
    ['"unit":"mm","first":{"value":1}', "reading-half"],
    ['"unit":"mm","first":{"value":1},"second":{}', "reading-part-form"],
    ['"unit":"mm","first":{"value":1},"second":{"value":2,"goes":3}', "reading-part-form"],
    ['"passed":true,"unit":"mm"', "reading-without-unit"],
    ['"goes":1,"doesNotGo":2', "reading-unit"],
    ['"unit":"mm","goes":2,"doesNotGo":1', "reading-leaves-crossed"],
    ['"unit":"mm","goes":1,"doesNotGo":1', "reading-leaves-crossed"],
    ['"unit":"mm","first":{"goes":2,"doesNotGo":1},"second":{"value":2}', "reading-leaves-crossed"],
    ['"unit":"furlong","value":1', "event-field-not-listed"],
    ['"unit":"mm","value":"1,5"', "event-field-unfit"],
    ['"unit":"mm","value":1e999', "event-field-unfit"],
    ['"unit":"mm","goes":-1', "event-field-beyond"],
    ['"unit":"mm","value":null', "event-field-unfit"],
  ])("a reading written as %s is refused as %s", (forms, code) => {
    const outcome = readLogbook(withReading(forms), "a");
    expect(outcome.diagnostics.map((one) => one.code)).toEqual([code]);
    expect(outcome.diagnostics[0]!.where.line).toBe(6);
  });
});

describe("laws of reading and writing", () => {
  test("what is written is read again as it was", () => {
    fc.assert(
      fc.property(someEvents, (events) => {
        const text = textFromEvents(events);
        expect(eventsIn(readLogbook(text, "a"))).toEqual(events);
        expect(eventsIn(readLogbook(bytesOf(text), "a"))).toEqual(events);
      }),
      { seed: 11, numRuns: 300 },
    );
  });

  test("what was read is written as one canonical text", () => {
    fc.assert(
      fc.property(someEvents, (events) => {
        const text = textFromEvents(events);
        expect(textFromEvents(eventsIn(readLogbook(text, "a")))).toBe(text);
      }),
      { seed: 12, numRuns: 200 },
    );
  });

  test("a logbook put behind itself is the same logbook", () => {
    fc.assert(
      fc.property(someEvents, (events) => {
        const text = textFromEvents(events);
        expect(eventsIn(readLogbook(text + text, "a"))).toEqual(events);
      }),
      { seed: 13, numRuns: 200 },
    );
  });

  test("cut at any byte, a logbook is the shorter one, with a warning where a line is torn", () => {
    const events = soundLogbook({ kind: "note-added", text: "häkchen ✓ 😀 über dem Bett" });
    const bytes = bytesOf(textFromEvents(events));
    const ends = [...bytes.entries()].filter(([, byte]) => byte === 0x0a).map(([index]) => index);
    for (let cut = 1; cut < bytes.length; cut += 1) {
      const outcome = readLogbook(bytes.subarray(0, cut), "a");
      // A line counts as whole as soon as its last brace is there.
      const whole = ends.filter((end) => end <= cut).length;
      expect(eventsIn(outcome)).toEqual(events.slice(0, whole));
      const isTorn = cut > (ends[whole - 1] ?? -1) + 1;
      expect(outcome.diagnostics.map(({ code }) => code)).toEqual(isTorn ? ["logbook-line-torn"] : []);
    }
  });

  test("no bytes make it throw", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => {
        readLogbook(bytes, "a");
      }),
      { seed: 14, numRuns: 3000 },
    );
  });

  test("no text that looks like JSON Lines makes it throw", () => {
    const line = fc.oneof(fc.json({ maxDepth: 4 }), fc.string({ unit: "binary" }), anyEvent.map(lineFromEvent));
    fc.assert(
      fc.property(fc.array(line, { maxLength: 8 }), (lines) => {
        readLogbook(lines.join("\n"), "a");
      }),
      { seed: 15, numRuns: 2000 },
    );
  });

  test("one damaged byte of a sound logbook is refused, or changes a value, and never makes it throw", () => {
    const bytes = bytesOf(sound);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: bytes.length - 1 }), fc.integer({ min: 0, max: 255 }), (index, byte) => {
        const damaged = Uint8Array.from(bytes);
        damaged[index] = byte;
        const outcome = readLogbook(damaged, "a");
        if (!outcome.ok) expect(outcome.diagnostics[0]!.severity).toBe("refusal");
      }),
      { seed: 16, numRuns: 5000 },
    );
  });

  test("an event with a hundred thousand unknown fields is refused for the first of them", () => {
    const fields = Array.from({ length: 100_000 }, (_, n) => `"k${n}":1`).join(",");
    const outcome = readLogbook(`${sound}{"v":1,"kind":"homed",${fields}}\n`, "a");
    expect(outcome.diagnostics.length).toBeLessThanOrEqual(mostDiagnostics + 1);
  });

  test("nesting deeper than any stack is refused", () => {
    const deep = `{"v":1,"kind":"note-added","text":${"[".repeat(200_000)}${"]".repeat(200_000)}}\n`;
    expect(firstFault(sound + deep)?.line).toBe(6);
    expect(firstFault(`${sound}${"[".repeat(200_000)}\n`)).toMatchObject({ code: "logbook-line-not-json", line: 6 });
  });
});
