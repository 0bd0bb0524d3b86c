import { describe, expect, test } from "vitest";
import { shippedCatalogue } from "../../tests/logbook/catalogue.ts";
import { sampleEvent, sampleMachine, soundLogbook } from "../../tests/logbook/sample-events.ts";
import { checks } from "../core/checks/catalogue.ts";
import { type Machine, machineFromDescription } from "../core/machine/machine.ts";
import { isEventKind, type LogEvent } from "./events.ts";
import { eventFromJson } from "./read-event.ts";
import { replay } from "./replay.ts";

const layouts = ["moving-gantry", "fixed-bridge"] as const;

function usualAnswer(usual: string | number | ((machine: Machine) => string | number), machine: Machine) {
  return typeof usual === "function" ? usual(machine) : usual;
}

describe("every check of the catalogue, on every layout it exists for", () => {
  const cases = layouts.flatMap((layout) =>
    checks.filter((check) => check.layouts.includes(layout)).map((check) => [check.id, layout, check] as const),
  );

  test.each(cases)("%s on a %s can be logged with its usual answers at all of its stations", (_, layout, check) => {
    const machine = machineFromDescription({ ...sampleMachine, layout });
    const options = Object.fromEntries(check.options.map(({ key, usual }) => [key, usualAnswer(usual, machine)]));
    const stations = check.stations({ machine, options, instrument: null });
    const unit = { length: "mm", slope: "mm/m", force: "N", frequency: "Hz" }[check.quantity as "length"];
    const forms = check.quantity === "verdict" ? { passed: true } : { unit, value: 1 };
    const bodies = [
      { kind: "machine-described", machine: { ...sampleMachine, layout } },
      { kind: "run-begun", run: "r", check: check.id, options },
      ...stations.map(({ key }) => ({ kind: "reading-taken", run: "r", station: key, ...forms })),
    ];
    const events = bodies.map((body, n) => sampleEvent(n, body));
    for (const event of events) {
      const read = eventFromJson(JSON.parse(JSON.stringify(event)), {});
      expect(read.diagnostics).toEqual([]);
    }
    const outcome = replay(events, shippedCatalogue);
    expect(outcome.diagnostics).toEqual([]);
    expect(outcome.ok && outcome.value.readings.length).toBe(stations.length);
  });

  test.each(cases)("%s on a %s names every answer, and refuses one more", (_, layout, check) => {
    const known = shippedCatalogue({ ...sampleMachine, layout });
    const run = {
      id: "r",
      check: check.id,
      at: 0,
      instrument: null,
      objects: {},
      conditions: {},
      factor: 1,
      withdrawn: null,
    };
    for (const { key, answers, number } of check.options) {
      const good = answers ?? [number!.from, number!.to];
      for (const answer of good) expect(known.runProblems({ ...run, options: { [key]: answer } }, null)).toEqual([]);
      const bad = answers ? "neither" : number!.to + 1;
      const codes = known.runProblems({ ...run, options: { [key]: bad } }, null).map(({ code }) => code);
      expect(codes).toEqual(["option-not-possible"]);
    }
  });
});

test.each(layouts)(
  "every station of every check of a %s may be named by its place, where a check takes places",
  (layout) => {
    const machine = machineFromDescription({ ...sampleMachine, layout });
    const known = shippedCatalogue({ ...sampleMachine, layout });
    for (const check of checks) {
      if (check.kind !== "geometric" || !check.stationAt || !check.layouts.includes(layout)) continue;
      const run = { id: "r", check: check.id, at: 0, instrument: null, objects: {}, options: {}, conditions: {} };
      const problemOf = known.stationProblems({ ...run, factor: 1, withdrawn: null }, null);
      for (const { at, to } of check.stations({ machine, options: {}, instrument: null })) {
        const [x, y, z] = to ?? at;
        expect(problemOf(`x=${x.toFixed(3)} y=${y.toFixed(3)} z=${z.toFixed(3)}`), check.id).toBeNull();
      }
    }
  },
);

test.each(layouts)("every adjuster, finding and mode of a %s has a name that an event can hold", (layout) => {
  const known = shippedCatalogue({ ...sampleMachine, layout });
  const bodies = [
    { kind: "machine-described", machine: { ...sampleMachine, layout } },
    ...Array.from(known.adjusters, ([adjuster, { kind }]) =>
      kind === "skim"
        ? { kind: "adjuster-locked", adjuster, because: "no" }
        : { kind: "move-made", adjuster, amount: 0.1 },
    ),
    ...Array.from(known.findings, ([finding, unit]) => ({ kind: "limit-set", finding, limit: 0.2, unit })),
    ...Array.from(known.modes, (mode) => ({ kind: "prior-set", mode, standardUncertainty: 0.2 })),
  ];
  const events = bodies.map((body, n) => sampleEvent(n, body));
  for (const event of events) expect(eventFromJson(event, {}).diagnostics).toEqual([]);
  const outcome = replay(events, shippedCatalogue);
  expect(outcome.diagnostics).toEqual([]);
  expect(outcome.ok && outcome.value.limits).toEqual(new Map(Array.from(known.findings.keys(), (id) => [id, 0.2])));
});

test("leaves that touch without a gap are read as nothing between them", () => {
  const touch = sampleEvent(9, { kind: "reading-taken", run: "gap-1", station: "front left", unit: "mm", value: 0 });
  expect(replay([...soundLogbook(), touch], shippedCatalogue).diagnostics).toEqual([]);
});

test("no kind of event is a property that every object has", () => {
  for (const name of ["constructor", "__proto__", "toString"]) expect(isEventKind(name)).toBe(false);
  const event = sampleEvent(0, { kind: "constructor" }) as LogEvent;
  expect(eventFromJson(event, {}).diagnostics.map(({ code }) => code)).toEqual(["event-kind-unknown"]);
});
