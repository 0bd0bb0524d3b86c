import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sampleEvent, sampleMachine, soundLogbook } from "../../tests/logbook/sample-events.ts";
import { codesOf, openedStore, tidyUp, valueIn } from "../../tests/store/temporary-store.ts";
import type { LogEvent } from "../logbook/events.ts";
import { lineFromEvent, textFromEvents } from "../logbook/write.ts";
import { exportLogbook } from "./export-logbook.ts";
import { importLogbook } from "./import-logbook.ts";

tidyUp();

const sound = textFromEvents(soundLogbook());
const fileOf = (path: string) => readFileSync(fileURLToPath(new URL(`../../${path}`, import.meta.url)), "utf8");
const everyKind = fileOf("tests/corpus/logbooks/v1.jsonl");
const demonstration = fileOf("catalog/demonstration/shared-workshop.jsonl");
const homed = sampleEvent(9, { kind: "homed" });

describe("an import", () => {
  test.each([
    ["the demonstration", demonstration],
    ["a logbook of every kind of event", everyKind],
  ])("of %s and its export into another store give the same lines, byte by byte", (_, text) => {
    const [first, second] = [openedStore(), openedStore()];
    const { machine, isNew, appended, torn } = valueIn(importLogbook(first, text, "a.jsonl"));
    expect([isNew, torn, appended.passedOver]).toEqual([true, null, 0]);
    const exported = exportLogbook(first, machine);
    expect(exported).toBe(text);
    const again = valueIn(importLogbook(second, exported, "b.jsonl"));
    expect(exportLogbook(second, again.machine)).toBe(text);
    expect(second.eventsAfter(0).map(({ event }) => event)).toEqual(first.eventsAfter(0).map(({ event }) => event));
    expect(second.faults()).toEqual([]);
  });

  test("of the same logbook again adds nothing, whether the machine is named or found", () => {
    const store = openedStore();
    const { machine } = valueIn(importLogbook(store, sound, "a.jsonl"));
    for (const named of [undefined, machine]) {
      const again = valueIn(importLogbook(store, sound, "a.jsonl", named));
      expect(again).toEqual({ machine, isNew: false, appended: { added: [], passedOver: 5 }, torn: null });
    }
    expect(store.machines()).toHaveLength(1);
    expect(exportLogbook(store, machine)).toBe(sound);
  });

  test("of a copy that has gone on adds what is new in it, and the other way round", () => {
    const store = openedStore();
    const { machine } = valueIn(importLogbook(store, sound, "a.jsonl"));
    store.append(machine, [sampleEvent(8, { kind: "knocked" })]);
    const { appended } = valueIn(importLogbook(store, sound + textFromEvents([homed]), "b.jsonl"));
    expect([appended.added.map(({ event }) => event), appended.passedOver]).toEqual([[homed], 5]);
    const other = openedStore();
    valueIn(importLogbook(other, exportLogbook(store, machine), "c.jsonl"));
    expect(other.lastSequence()).toBe(7);
  });

  test("of a few events without a machine goes to the machine that is named", () => {
    const store = openedStore();
    const { machine } = valueIn(importLogbook(store, sound, "a.jsonl"));
    const few = textFromEvents([homed]);
    expect(codesOf(importLogbook(store, few, "b.jsonl"))).toEqual(["logbook-without-machine"]);
    expect(valueIn(importLogbook(store, few, "b.jsonl", machine)).appended.added).toHaveLength(1);
  });

  test("of a logbook of another machine is not mixed into the one that is named", () => {
    const store = openedStore();
    const { machine } = valueIn(importLogbook(store, sound, "a.jsonl"));
    const other = textFromEvents([sampleEvent(50, { kind: "machine-described", machine: sampleMachine })]);
    expect(codesOf(importLogbook(store, other, "b.jsonl", machine))).toEqual(["import-of-other-machine"]);
    expect(codesOf(importLogbook(store, other, "b.jsonl", "barn"))).toEqual(["machine-not-there"]);
    expect(valueIn(importLogbook(store, other, "b.jsonl")).isNew).toBe(true);
    const both = sound + other;
    expect(importLogbook(store, both, "c.jsonl").diagnostics).toMatchObject([
      { code: "import-of-several-machines", where: { file: "c.jsonl" } },
    ]);
  });

  test("refuses another event under an id that is there, and names its line", () => {
    const store = openedStore();
    valueIn(importLogbook(store, sound, "a.jsonl"));
    const other = lineFromEvent({ ...soundLogbook()[3], goes: 0.55 } as LogEvent);
    const lines = sound.split("\n");
    const changed = [lines[0], lineFromEvent(homed), other, ""].join("\n");
    const outcome = importLogbook(store, changed, "b.jsonl");
    expect(outcome.diagnostics).toMatchObject([
      { code: "event-id-taken", where: { file: "b.jsonl", line: 3, field: "id" }, data: { id: soundLogbook()[3]!.id } },
    ]);
    expect(store.lastSequence()).toBe(5);
  });

  test("refuses what contradicts what is there, and names its line", () => {
    const store = openedStore();
    valueIn(importLogbook(store, sound, "a.jsonl"));
    const stray = sampleEvent(12, { kind: "reading-taken", run: "gap-9", station: "rear left", unit: "mm", value: 1 });
    const outcome = importLogbook(store, sound + textFromEvents([homed, stray]), "b.jsonl");
    expect(outcome.diagnostics).toMatchObject([{ code: "run-unknown", where: { file: "b.jsonl", line: 7 } }]);
    expect(store.lastSequence()).toBe(5);
  });

  test("sets a last line aside that breaks off, says so, and takes the rest", () => {
    const store = openedStore();
    const torn = lineFromEvent(homed).slice(0, 40);
    const outcome = importLogbook(store, sound + torn, "a.jsonl");
    expect(outcome.diagnostics).toMatchObject([{ code: "logbook-line-torn", severity: "warning", where: { line: 6 } }]);
    const { machine, torn: aside } = valueIn(outcome);
    expect(aside).toMatchObject({ line: 6, text: torn });
    expect(exportLogbook(store, machine)).toBe(sound);
    // Whole again, it is the one event that is new.
    expect(valueIn(importLogbook(store, sound + textFromEvents([homed]), "a.jsonl")).appended.added).toHaveLength(1);
  });

  test("takes any order and any layout of the lines, and writes its own", () => {
    const store = openedStore();
    const turned = soundLogbook().map((event) => JSON.stringify(Object.fromEntries(Object.entries(event).reverse())));
    const { machine } = valueIn(importLogbook(store, `\ufeff${turned.reverse().join("\r\n\r\n")}`, "a.jsonl"));
    expect(exportLogbook(store, machine)).toBe(textFromEvents([...soundLogbook()].reverse()));
    expect(valueIn(importLogbook(store, sound, "b.jsonl")).appended.passedOver).toBe(5);
  });
});

describe("a broken file", () => {
  const bytes = new TextEncoder().encode(demonstration);

  test("is refused or taken, never thrown, and what is refused leaves no trace", () => {
    const store = openedStore();
    valueIn(importLogbook(store, demonstration, "a.jsonl"));
    const before = store.lastSequence();
    const change = fc.record({
      at: fc.nat(bytes.length - 1),
      drop: fc.integer({ min: 0, max: 300 }),
      put: fc.oneof(
        fc.uint8Array({ maxLength: 12 }),
        fc.constantFrom('"', "{", "}", "\n", "\0", '"v":2', "null", "-", "1e999"),
      ),
    });
    let refused = 0;
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), fc.boolean(), (changes, isNew) => {
        let broken = Buffer.from(bytes);
        for (const { at, drop, put } of changes) {
          broken = Buffer.concat([broken.subarray(0, at), Buffer.from(put as string), broken.subarray(at + drop)]);
        }
        const into = isNew ? openedStore() : store;
        const sequence = into.lastSequence();
        const outcome = importLogbook(into, broken, "broken.jsonl");
        if (!outcome.ok) {
          refused += 1;
          expect(outcome.diagnostics.length).toBeGreaterThan(0);
          expect(into.lastSequence()).toBe(sequence);
          expect(into.machines()).toHaveLength(isNew ? 0 : 1);
        }
      }),
      { seed: 20260314, numRuns: 120 },
    );
    expect(refused).toBeGreaterThan(60);
    expect(store.lastSequence()).toBeGreaterThanOrEqual(before);
    expect(store.faults()).toEqual([]);
  });

  test("of any bytes at all is never thrown", () => {
    const store = openedStore();
    fc.assert(
      fc.property(
        fc.oneof(fc.uint8Array({ maxLength: 400 }), fc.string({ unit: "binary", maxLength: 200 })),
        (content) => {
          expect(importLogbook(store, content, "x").ok).toBe(false);
        },
      ),
      { seed: 20260314, numRuns: 500 },
    );
    expect(store.machines()).toEqual([]);
  });
});
