import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sampleEvent, sampleId, sampleMachine, soundLogbook } from "../../tests/logbook/sample-events.ts";
import { codesOf, openedStore, tidyUp, valueIn } from "../../tests/store/temporary-store.ts";
import type { EventStore } from "../app/event-store.ts";
import { knownCatalogue } from "../app/known.ts";
import type { LogEvent } from "../logbook/events.ts";
import { replay } from "../logbook/replay.ts";
import { appendChecked } from "./append-checked.ts";

tidyUp();

function storeWithMachine(events: readonly LogEvent[] = soundLogbook()): EventStore {
  const store = openedStore();
  store.addMachine({ id: "shed", demonstration: false }, events);
  return store;
}

const gap = { kind: "reading-taken", run: "gap-1", station: "rear left", unit: "mm", goes: 0.3, doesNotGo: 0.35 };

describe("a checked append", () => {
  test("adds what makes sense with all that is there", () => {
    const store = storeWithMachine();
    const appended = valueIn(appendChecked(store, "shed", [sampleEvent(9, gap)]));
    expect(appended).toEqual({ added: [{ sequence: 6, machine: "shed", event: sampleEvent(9, gap) }], passedOver: 0 });
  });

  test("passes over what is there and what stands in the batch twice", () => {
    const store = storeWithMachine();
    const batch = [...soundLogbook(), sampleEvent(9, gap), sampleEvent(9, gap)];
    expect(valueIn(appendChecked(store, "shed", batch))).toMatchObject({ added: [{ sequence: 6 }], passedOver: 6 });
    expect(valueIn(appendChecked(store, "shed", batch))).toEqual({ added: [], passedOver: 7 });
    expect(valueIn(appendChecked(store, "shed", []))).toEqual({ added: [], passedOver: 0 });
  });

  test.each<[string, Record<string, unknown>, string]>([
    ["a reading of no run", { ...gap, run: "gap-7" }, "run-unknown"],
    ["a station that the check does not have", { ...gap, station: "upstairs" }, "station-unknown"],
    ["a reading in a unit of another quantity", { ...gap, unit: "N" }, "unit-of-other-quantity"],
    ["a run that is begun twice", { kind: "run-begun", run: "gap-1", check: "travel" }, "run-begun-twice"],
    [
      "a run with a tool that is not there",
      { kind: "run-begun", run: "r", check: "travel", instrument: "x" },
      "instrument-unknown",
    ],
    [
      "a withdrawal of nothing",
      { kind: "reading-withdrawn", reading: sampleId(77), because: "a slip" },
      "reading-unknown",
    ],
    ["a withdrawal of what is no reading", { kind: "reading-restored", reading: sampleId(0) }, "reading-unknown"],
    ["a move of what cannot be moved", { kind: "move-made", adjuster: "beam.up", amount: 1 }, "adjuster-unknown"],
    ["a field that is not there", { kind: "homed", where: "here" }, "event-field-unknown"],
  ])("refuses %s, and names the event", (_, body, code) => {
    const store = storeWithMachine();
    const outcome = appendChecked(store, "shed", [sampleEvent(9, { kind: "homed" }), sampleEvent(10, body)]);
    expect(outcome.diagnostics).toMatchObject([{ code, where: { event: sampleId(10) } }]);
    expect(store.lastSequence()).toBe(5);
  });

  test("says the name that may be meant, although it looks at little of the logbook first", () => {
    const { data } = appendChecked(storeWithMachine(), "shed", [sampleEvent(9, { ...gap, run: "gap-2" })])
      .diagnostics[0]!;
    expect(data.meant).toBe("gap-1");
  });

  test("refuses another event under an id that is there, or twice in the batch", () => {
    const store = storeWithMachine();
    const other = { ...soundLogbook()[3], goes: 0.55 } as LogEvent;
    const where = { event: sampleId(3), field: "id" };
    expect(appendChecked(store, "shed", [other]).diagnostics).toMatchObject([{ code: "event-id-taken", where }]);
    const twice = [sampleEvent(9, gap), sampleEvent(9, { ...gap, station: "rear right" })];
    expect(codesOf(appendChecked(store, "shed", twice))).toEqual(["event-id-taken"]);
    expect(store.lastSequence()).toBe(5);
  });

  test("takes a narrower machine although something was read beyond it, and refuses one that cannot be", () => {
    const touch = { kind: "run-begun", run: "touch", check: "bed-touch", instrument: "dial" };
    const store = storeWithMachine(
      soundLogbook({ kind: "instrument-added", instrument: { id: "dial", kind: "dial-indicator" } }, touch, {
        kind: "reading-taken",
        run: "touch",
        station: "x=590 y=100",
        unit: "mm",
        value: 0.1,
      }),
    );
    const describedWith = (n: number, change: object) =>
      appendChecked(store, "shed", [
        sampleEvent(n, { kind: "machine-described", machine: { ...sampleMachine, ...change } }),
      ]);
    expect(describedWith(19, { travelMm: { ...sampleMachine.travelMm, x: 500 } }).ok).toBe(true);
    expect(codesOf(describedWith(20, { railPlanesMm: { left: 690, right: -90 } }))).toContain("machine-rails-crossed");
    // And takes it again as it was: nothing of the refused one is remembered.
    const at590 = sampleEvent(21, {
      kind: "reading-taken",
      run: "touch",
      station: "x=590 y=200",
      unit: "mm",
      value: 0.1,
    });
    expect(appendChecked(store, "shed", [at590]).ok).toBe(true);
  });

  test("holds a reading against the machine as it was last described", () => {
    const dial = { kind: "instrument-added", instrument: { id: "dial", kind: "dial-indicator" } };
    const store = storeWithMachine(
      soundLogbook(dial, { kind: "run-begun", run: "touch", check: "bed-touch", instrument: "dial" }),
    );
    const touch = { kind: "reading-taken", run: "touch", station: "x=100 y=100", unit: "mm", value: 0.1 };
    const later = { kind: "run-begun", run: "later", check: "bed-touch", instrument: "dial" };
    const describeWide = (n: number, x: number) => {
      const machine = { ...sampleMachine, travelMm: { ...sampleMachine.travelMm, x } };
      return appendChecked(store, "shed", [sampleEvent(n, { kind: "machine-described", machine })]).ok;
    };
    const touchAt = (n: number, station: string, run = "touch") =>
      appendChecked(store, "shed", [sampleEvent(n, { ...touch, station, run })]);
    expect(touchAt(20, "x=100 y=100").ok).toBe(true);
    expect(describeWide(21, 500)).toBe(true);
    // A run goes on at the places that it was begun with.
    expect(touchAt(22, "x=590 y=100").ok).toBe(true);
    expect(appendChecked(store, "shed", [sampleEvent(23, later)]).ok).toBe(true);
    expect(codesOf(touchAt(24, "x=590 y=100", "later"))).toEqual(["station-outside-travel"]);
    expect(describeWide(25, 600)).toBe(true);
    expect(touchAt(26, "x=590 y=100", "later").ok).toBe(true);
  });

  test("refuses a machine that is not there, and lists those that are", () => {
    const outcome = appendChecked(storeWithMachine(), "barn", [sampleEvent(9, gap)]);
    expect(outcome.diagnostics).toMatchObject([
      { code: "machine-not-there", data: { machine: "barn", listed: "shed" } },
    ]);
  });

  test("warns about the events given, and not again about those before", () => {
    const machine = { ...sampleMachine, railPlanesMm: { left: 10, right: 500 } };
    const [, ...rest] = soundLogbook();
    const store = storeWithMachine([sampleEvent(0, { kind: "machine-described", machine }), ...rest]);
    const unusual = sampleEvent(9, { kind: "run-begun", run: "gap-2", check: "gap-under-beam", instrument: "leaves" });
    expect(codesOf(appendChecked(store, "shed", [unusual]))).toEqual([]);
    const again = sampleEvent(10, { kind: "machine-described", machine: { ...machine, name: "again" } });
    expect(codesOf(appendChecked(store, "shed", [again]))).toEqual(["machine-rails-inside-travel"]);
  });

  test("sees what has been added past it, and a machine that has left and come back with other events", () => {
    const store = storeWithMachine();
    expect(appendChecked(store, "shed", [sampleEvent(9, gap)]).ok).toBe(true);
    store.append("shed", [
      sampleEvent(10, { kind: "run-begun", run: "late", check: "gap-under-beam", instrument: "leaves" }),
    ]);
    expect(appendChecked(store, "shed", [sampleEvent(11, { ...gap, run: "late" })]).ok).toBe(true);
    store.deleteMachine("shed");
    expect(codesOf(appendChecked(store, "shed", [sampleEvent(12, gap)]))).toEqual(["machine-not-there"]);
    store.addMachine({ id: "shed", demonstration: false }, soundLogbook().slice(0, 1));
    expect(codesOf(appendChecked(store, "shed", [sampleEvent(12, gap)]))).toEqual(["run-unknown"]);
  });
});

test("an event is added exactly when the replay of the whole logbook takes it", () => {
  const run = fc.constantFrom("gap-1", "r1", "r2", "r3");
  const reading = fc.integer({ min: 3, max: 16 }).map(sampleId);
  const tool = fc.constantFrom("leaves", "dial", "rule");
  const because = fc.constant("a slip");
  const body = fc.oneof(
    {
      weight: 3,
      arbitrary: fc.record({
        kind: fc.constant("run-begun"),
        run,
        check: fc.constantFrom("gap-under-beam", "travel", "nothing"),
        instrument: tool,
      }),
    },
    {
      weight: 6,
      arbitrary: fc.record({
        ...Object.fromEntries(Object.entries(gap).map(([key, value]) => [key, fc.constant(value)])),
        run,
        station: fc.constantFrom("front left", "rear right", "nowhere"),
      }),
    },
    fc.record({ kind: fc.constant("reading-withdrawn"), reading, because }),
    fc.record({ kind: fc.constant("reading-restored"), reading }),
    fc.record({ kind: fc.constant("run-withdrawn"), run, because }),
    fc.record({ kind: fc.constant("run-restored"), run }),
    fc.record({ kind: fc.constant("run-reinterpreted"), run, factor: fc.constant(25.4), because }),
    fc.record({
      kind: fc.constant("move-made"),
      adjuster: fc.constantFrom("beam.right", "nothing"),
      amount: fc.constant(0.1),
    }),
    fc.record({ kind: fc.constant("move-undone"), move: reading }),
    fc.record({
      kind: fc.constant("instrument-added"),
      instrument: fc.record({ id: tool, kind: fc.constantFrom("feeler-leaves", "dial-indicator", "calipers-300") }),
    }),
    fc.record({
      kind: fc.constant("machine-described"),
      machine: fc.constantFrom(sampleMachine, { ...sampleMachine, travelMm: { x: 300, y: 300, z: 70 } }),
    }),
    fc.constantFrom({ kind: "homed" }, { kind: "knocked" }, { kind: "note-added", text: "wiped" }),
  );
  let [taken, refused] = [0, 0];
  const store = openedStore();
  fc.assert(
    fc.property(fc.array(body, { minLength: 1, maxLength: 12 }), (bodies) => {
      const machine = `m${store.machines().length}`;
      store.addMachine({ id: machine, demonstration: false }, soundLogbook());
      let events = soundLogbook();
      for (const [n, one] of bodies.entries()) {
        const event = sampleEvent(n + 5, one as Record<string, unknown>);
        const wanted = replay([...events, event], knownCatalogue);
        const outcome = appendChecked(store, machine, [event]);
        expect(outcome.ok, JSON.stringify(one)).toBe(wanted.ok);
        const refusals = ({ diagnostics }: typeof wanted) =>
          diagnostics.filter(({ severity }) => severity === "refusal");
        if (!outcome.ok) expect(refusals(outcome as typeof wanted)).toEqual(refusals(wanted));
        else events = [...events, event];
        if (outcome.ok) taken += 1;
        else refused += 1;
      }
      expect(store.eventsAfter(0, { machine }).map(({ event }) => event)).toEqual(events);
    }),
    { seed: 20260314, numRuns: 150 },
  );
  // Both ways must have been tried often, or the property says little.
  expect([taken, refused].every((count) => count > 150)).toBe(true);
});
