import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shippedCatalogue } from "../../tests/logbook/catalogue.ts";
import { sampleEvent, sampleId, soundLogbook } from "../../tests/logbook/sample-events.ts";
import type { Chronicle } from "../core/planning/wishes.ts";
import type { LogEvent } from "./events.ts";
import { readLogbook } from "./read.ts";
import { replay } from "./replay.ts";
import { textFromEvents } from "./write.ts";

function timelineOf(events: readonly LogEvent[]): Chronicle {
  const outcome = replay(events, shippedCatalogue);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

describe("laws of replay", () => {
  const stations = ["front left", "front middle", "front right", "rear left", "rear middle", "rear right"];
  const body = fc.oneof(
    {
      weight: 4,
      arbitrary: fc.record({
        kind: fc.constant("reading-taken"),
        run: fc.constant("gap-1"),
        station: fc.constantFrom(...stations),
        unit: fc.constant("mm"),
        goes: fc.constantFrom(0.2, 0.35, 0.6),
        doesNotGo: fc.constantFrom(0.65, 0.8),
      }),
    },
    fc.record({ kind: fc.constantFrom("homed", "powered-on", "transported", "skimmed", "knocked") }),
    fc.record({
      kind: fc.constantFrom("reading-withdrawn"),
      reading: fc.constantFrom(sampleId(3), sampleId(4)),
      because: fc.constantFrom("a", "b"),
    }),
    fc.record({ kind: fc.constant("reading-restored"), reading: fc.constantFrom(sampleId(3), sampleId(4)) }),
    fc.record({
      kind: fc.constant("run-reinterpreted"),
      run: fc.constant("gap-1"),
      factor: fc.constantFrom(-1, 25.4),
      because: fc.constant("a"),
    }),
    fc.record({ kind: fc.constant("machine-renamed"), name: fc.constantFrom("a", "b", "c") }),
    fc.record({
      kind: fc.constant("limit-set"),
      finding: fc.constant("squareness"),
      limit: fc.constantFrom(1, 2, null),
      unit: fc.constant("mm/m"),
    }),
    fc.record({
      kind: fc.constant("move-made"),
      adjuster: fc.constant("rail.left.front"),
      amount: fc.constantFrom(0.1, 0.2),
    }),
    fc.record({
      kind: fc.constant("move-made"),
      adjuster: fc.constant("beam.right"),
      amount: fc.constantFrom(0.1, -0.2),
      leaves: fc.record({ laidMm: fc.constantFrom([], [0.1], [0.2, 0.1]), takenOutMm: fc.constantFrom([], [0.3]) }),
      gauge: fc.record({
        run: fc.constant("gap-1"),
        station: fc.constantFrom(...stations),
        unit: fc.constant("mm"),
        nipped: fc.record({ value: fc.constantFrom(0.5, 0.6) }),
        final: fc.record({ goes: fc.constant(0.5), doesNotGo: fc.constantFrom(0.55, 0.6) }),
      }),
    }),
    fc.record({ kind: fc.constant("work-chosen"), kindOfWork: fc.constantFrom("lettering", "general", null) }),
    fc.record({
      kind: fc.constant("demand-set"),
      name: fc.constantFrom("sign", "tray"),
      demand: fc.constantFrom(
        null,
        { kind: "depth-spread", sizes: { widthMm: 200 }, limit: 0.2, unit: "mm" },
        { kind: "sides", limit: 10, unit: "thou" },
      ),
    }),
    fc.record(
      {
        kind: fc.constant("demand-limit-set"),
        demand: fc.constantFrom("tram 200", "circle 75"),
        limit: fc.constantFrom(null, 0.1, 0.2),
      },
      { requiredKeys: ["kind", "demand"] },
    ),
    fc.record({ kind: fc.constant("skim-decided"), will: fc.constantFrom(true, false, null) }),
    fc.record({ kind: fc.constant("stock-set"), leavesMm: fc.constantFrom(null, [], [0.1, 0.2, 0.1]) }),
    fc.record({
      kind: fc.constant("adjuster-locked"),
      adjuster: fc.constantFrom("beam.left", "beam.right"),
      because: fc.constantFrom("a", "b"),
    }),
    fc.record({ kind: fc.constant("adjuster-unlocked"), adjuster: fc.constantFrom("beam.left", "beam.right") }),
    fc.record(
      {
        kind: fc.constant("adjuster-changed"),
        adjuster: fc.constantFrom("beam.left", "rail.left.front"),
        range: fc.constantFrom({ from: 0, to: 0.5 }, { from: 0, to: 2 }),
        minutes: fc.constantFrom(3, 4),
        available: fc.boolean(),
      },
      { requiredKeys: ["kind", "adjuster"] },
    ),
  );
  // What takes something back names the event of one of the first places, when it is of the right kind.
  const takenBack = (events: readonly LogEvent[]): readonly LogEvent[] =>
    events.flatMap((event, n) => {
      const body =
        event.kind === "move-made"
          ? { kind: "move-undone", move: event.id }
          : event.kind === "knocked" || event.kind === "skimmed"
            ? { kind: "happening-withdrawn", happening: event.id, because: "a" }
            : null;
      return body === null || n % 2 === 0 ? [event] : [event, { ...sampleEvent(100 + n, body), at: event.at }];
    });
  // Few different times, so that many events share one and only their ids tell them apart.
  const time = fc.constantFrom(
    "2026-03-14T16:00:00+01:00",
    "2026-03-14T15:00:00Z",
    "2026-03-14T16:30:00Z",
    "2026-03-14T17:30:00.5+01:00",
  );
  const logbook = fc
    .array(fc.tuple(body, time), { maxLength: 15 })
    .map((bodies) => bodies.map(([one, at], n) => ({ ...sampleEvent(10 + n, one), at })))
    .map((events) => [...soundLogbook(), ...takenBack(events)]);

  test("the order of lines does not matter", () => {
    const shuffled = logbook.chain((events) =>
      fc.tuple(fc.constant(events), fc.shuffledSubarray([...events], { minLength: events.length })),
    );
    fc.assert(
      fc.property(shuffled, ([events, others]) => {
        expect(timelineOf(others)).toEqual(timelineOf(events));
      }),
      { seed: 31, numRuns: 300 },
    );
  });

  test("what is written and read again comes to the same, once or twice in one file", () => {
    fc.assert(
      fc.property(logbook, (events) => {
        const text = textFromEvents(events);
        const again = readLogbook(text + text, "a");
        if (!again.ok) throw new Error("a written logbook was refused");
        expect(timelineOf(again.value.events)).toEqual(timelineOf(events));
      }),
      { seed: 32, numRuns: 200 },
    );
  });

  test("the same events come to the same timeline, to the last digit", () => {
    fc.assert(
      fc.property(logbook, (events) => {
        expect(timelineOf(structuredClone(events) as LogEvent[])).toEqual(timelineOf(events));
      }),
      { seed: 33, numRuns: 100 },
    );
  });

  test("what was taken back has never been: the same without it comes to the same", () => {
    fc.assert(
      fc.property(logbook, (events) => {
        const gone = new Set(
          events.flatMap((event) =>
            event.kind === "move-undone" ? [event.move] : event.kind === "happening-withdrawn" ? [event.happening] : [],
          ),
        );
        const others = events.filter(
          ({ id, kind }) => !gone.has(id) && kind !== "move-undone" && kind !== "happening-withdrawn",
        );
        expect(timelineOf(others)).toEqual(timelineOf(events));
      }),
      { seed: 35, numRuns: 200 },
    );
  });

  test("events are not changed by it", () => {
    fc.assert(
      fc.property(logbook, (events) => {
        const before = structuredClone(events);
        timelineOf(events);
        expect(events).toEqual(before);
      }),
      { seed: 34, numRuns: 100 },
    );
  });
});
