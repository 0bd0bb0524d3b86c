import { describe, expect, test } from "vitest";
import { shippedCatalogue } from "../../tests/logbook/catalogue.ts";
import { saidOf, saidOfEvents, timelineAfter, timelineOf } from "../../tests/logbook/replayed.ts";
import { sampleId, sampleMachine, soundLogbook } from "../../tests/logbook/sample-events.ts";
import type { LogEvent } from "./events.ts";
import { replay } from "./replay.ts";

const reading = (body: Record<string, unknown>) => ({
  kind: "reading-taken",
  run: "gap-1",
  station: "front left",
  ...body,
});

describe("the machine", () => {
  test("is the latest description under the latest name", () => {
    const wider = { ...sampleMachine, name: "router", travelMm: { x: 650, y: 500, z: 70 } };
    const renamed = { kind: "machine-renamed", name: "the old one" };
    expect(timelineAfter(renamed).machine.name).toBe("the old one");
    expect(timelineAfter(renamed, { kind: "machine-described", machine: wider }).machine).toEqual(wider);
  });

  test("must be described somewhere, not necessarily first: clocks differ", () => {
    const [described, ...others] = soundLogbook();
    expect(saidOfEvents(others)).toEqual([["logbook-without-machine", undefined, undefined]]);
    const late = { ...described!, at: "2026-03-14T18:00:00+01:00" };
    expect(timelineOf([...others, late]).readings).toHaveLength(2);
    expect(replay([], shippedCatalogue).diagnostics.map(({ code }) => code)).toEqual(["logbook-without-machine"]);
  });

  test.each([
    [
      "rails that cross",
      { railPlanesMm: { left: 690, right: -90 } },
      "machine-rails-crossed",
      "machine.railPlanesMm.right",
    ],
    [
      "a bed inside out",
      { details: { bedMm: { left: 640, right: -40, front: -40, rear: 540 } } },
      "machine-bed-inside-out",
      "machine.details.bedMm.right",
    ],
    [
      "packing places exchanged",
      { details: { packingPlaces: { front: 1, rear: 0 } } },
      "machine-packing-places-crossed",
      "machine.details.packingPlaces.rear",
    ],
    [
      "an underside above the centre",
      { details: { beamUndersideMm: 110 } },
      "machine-underside-above-centre",
      "machine.details.beamUndersideMm",
    ],
    [
      "table rails that cross",
      { details: { tableRailsMm: { left: 340, right: 60 } } },
      "machine-table-rails-crossed",
      "machine.details.tableRailsMm.right",
    ],
  ])("with %s is refused", (_, change, code, field) => {
    const [described, ...others] = soundLogbook();
    const machine = { ...sampleMachine, ...change };
    expect(saidOfEvents([{ ...described!, machine } as LogEvent, ...others])).toEqual([[code, 1, field]]);
  });

  test("that cannot be is asked nothing more", () => {
    const [described, ...others] = soundLogbook();
    const machine = { ...sampleMachine, railPlanesMm: { left: 690, right: -90 } };
    const neverAsked = () => {
      throw new Error("an impossible machine has no catalogue");
    };
    expect(replay([{ ...described!, machine } as LogEvent, ...others], neverAsked).ok).toBe(false);
  });

  test("with packing under an adjuster that it has not is refused", () => {
    const [described, ...others] = soundLogbook();
    const machine = {
      ...sampleMachine,
      details: { packingNowMm: { "rail.left.front": 0.2, "rail.left.middle": 0.1 } },
    };
    expect(saidOfEvents([{ ...described!, machine } as LogEvent, ...others])).toEqual([
      ["adjuster-unknown", 1, "machine.details.packingNowMm.rail.left.middle"],
    ]);
  });

  test("whose rails stand inside its travel is remarked on and read", () => {
    const [described, ...others] = soundLogbook();
    const machine = { ...sampleMachine, railPlanesMm: { left: 20, right: 580 } };
    const events = [{ ...described!, machine } as LogEvent, ...others];
    expect(saidOfEvents(events)).toEqual([["machine-rails-inside-travel", 1, "machine.railPlanesMm"]]);
    expect(timelineOf(events).machine.railPlanesMm.left).toBe(20);
  });

  test("has the user's coordinates as they were set last, each axis under its own name", () => {
    const axis = (named: string, direction: 1 | -1) => ({ named, direction, zeroMm: 0 });
    const axes = { x: axis("X", 1), y: axis("Y", -1), z: axis("Z", 1) };
    const set = { kind: "coordinates-set", axes, tried: true };
    expect(timelineAfter(set).coordinates).toEqual({ axes, tried: true });
    expect(timelineAfter().coordinates).toBeNull();
    expect(saidOf({ ...set, axes: { ...axes, y: axis("X", 1) } })).toEqual([
      ["coordinates-axis-named-twice", 6, "axes.y.named"],
    ]);
  });
});

describe("readings", () => {
  test("come in the core's units, in the form in which they were taken", () => {
    const bodies = [
      reading({ unit: "in", goes: 0.02, doesNotGo: 0.022 }),
      reading({ unit: "mm", goes: 2.85 }),
      reading({ unit: "um", doesNotGo: 50 }),
      { kind: "run-begun", run: "wind", check: "rail-wind" },
      { kind: "reading-taken", run: "wind", station: "front", unit: "thou/ft", value: 12 },
      { kind: "run-begun", run: "look", check: "wheel-preload" },
      { kind: "reading-taken", run: "look", station: "carriage", passed: false },
      { kind: "run-begun", run: "stops", check: "stop-gaps" },
      {
        kind: "reading-taken",
        run: "stops",
        station: "first press",
        unit: "mm",
        first: { goes: 0.5, doesNotGo: 0.55 },
        second: { value: 0 },
      },
    ];
    const inches = timelineOf(
      soundLogbook({ kind: "run-begun", run: "x", check: "gap-under-beam" }, { ...bodies[0], run: "x" }),
    );
    expect(inches.readings.at(-1)?.entries).toEqual([{ form: "interval", goes: 0.508, doesNotGo: 0.5588 }]);
    expect(
      timelineAfter(...bodies.slice(1))
        .readings.slice(2)
        .map(({ entries }) => entries),
    ).toEqual([
      [{ form: "atLeast", bound: 2.85 }],
      [{ form: "atMost", bound: 0.05 }],
      [{ form: "value", value: 1 }],
      [{ form: "verdict", passed: false }],
      [
        { form: "interval", goes: 0.5, doesNotGo: 0.55 },
        { form: "value", value: 0 },
      ],
    ]);
  });

  test("come in the order of their own time, and keep it in ms", () => {
    const events = soundLogbook();
    const early = { ...events[4]!, id: sampleId(99), at: "2026-03-14T15:00:00.25+00:00" };
    const { readings } = timelineOf([...events, early]);
    expect(readings.map(({ id }) => id)).toEqual([sampleId(99), sampleId(3), sampleId(4)]);
    expect(readings[0]?.at).toBe(Date.UTC(2026, 2, 14, 15, 0, 0, 250));
  });

  test("are withdrawn and restored by what was said last", () => {
    const withdrawn = { kind: "reading-withdrawn", reading: sampleId(3), because: "leaf was bent" };
    const restored = { kind: "reading-restored", reading: sampleId(3) };
    expect(timelineAfter(withdrawn).readings[0]?.withdrawn).toBe("leaf was bent");
    expect(timelineAfter(withdrawn, restored).readings[0]?.withdrawn).toBeNull();
    expect(timelineAfter(withdrawn, restored, withdrawn).readings[0]?.withdrawn).toBe("leaf was bent");
    // Two devices may both withdraw what only one of them knew to be withdrawn.
    expect(timelineAfter(withdrawn, { ...withdrawn, because: "twice" }).readings[0]?.withdrawn).toBe("twice");
  });

  test.each([
    ["of an unknown run", reading({ run: "gap-2", unit: "mm", value: 0.5 }), "run-unknown", "run"],
    ["at an unknown station", reading({ station: "front-left", unit: "mm", value: 0.5 }), "station-unknown", "station"],
    ["off the bed", reading({ station: "x=3000 y=45", unit: "mm", value: 0.5 }), "station-off-the-bed", "station"],
    ["in a unit of another quantity", reading({ unit: "mm/m", value: 0.5 }), "unit-of-other-quantity", "unit"],
    ["without a unit", reading({ value: 0.5 }), "reading-unit", "unit"],
    ["as a yes or no", reading({ passed: true }), "reading-not-verdict", "passed"],
    [
      "as two where one is taken",
      reading({ unit: "mm", first: { value: 0.5 }, second: { value: 0.4 } }),
      "reading-not-double",
      "second",
    ],
    ["a kilometre long", reading({ unit: "m", value: 1000 }), "reading-not-plausible", "value"],
    ["outside the leaves", reading({ unit: "mm", goes: 13.5 }), "leaves-out-of-range", undefined],
    ["that no stack makes", reading({ unit: "mm", goes: 0.53 }), "leaves-cannot-make", undefined],
  ])("%s are refused", (_, body, code, field) => {
    expect(saidOf(body)).toEqual([[code, 6, field]]);
  });

  test("of a yes or no check need an answer", () => {
    const run = { kind: "run-begun", run: "look", check: "wheel-preload" };
    const taken = { kind: "reading-taken", run: "look", station: "carriage", unit: "mm", value: 1 };
    expect(saidOf(run, taken)).toEqual([["reading-is-verdict", 7, "value"]]);
  });

  test("at a place of the user's own are taken where the check allows it", () => {
    const { readings } = timelineAfter(reading({ station: "x=123 y=45", unit: "mm", value: 0.5 }));
    expect(readings.at(-1)?.station).toBe("x=123 y=45");
  });

  test("with the tip outside the travel are refused, though the bed reaches further", () => {
    const run = { kind: "run-begun", run: "touch", check: "bed-touch" };
    const touch = (station: string) => ({ kind: "reading-taken", run: "touch", station, unit: "mm", value: 0.1 });
    expect(saidOf(run, touch("x=600 y=500"))).toEqual([]);
    expect(saidOf(run, touch("x=601 y=500"))).toEqual([["station-outside-travel", 7, "station"]]);
    expect(saidOf(run, touch("x=-1 y=0"))).toEqual([["station-outside-travel", 7, "station"]]);
    expect(saidOf(reading({ station: "x=601 y=45", unit: "mm", value: 0.5 }))).toEqual([]);
  });

  test("higher than Z goes are refused, also where the tip itself is not read", () => {
    const run = { kind: "run-begun", run: "lean", check: "upright-gap" };
    const lean = (station: string) => ({ kind: "reading-taken", run: "lean", station, unit: "mm", value: 0.1 });
    expect(saidOf(run, lean("x=30 y=45 z=70"))).toEqual([]);
    expect(saidOf(run, lean("x=30 y=45 z=71"))).toEqual([["station-outside-travel", 7, "station"]]);
  });

  test("of a length that the travel does not hold are refused at its far end", () => {
    const run = { kind: "run-begun", run: "t", check: "travel", options: { axis: "X" } };
    const length = (station: string) => ({ kind: "reading-taken", run: "t", station, unit: "mm", value: 500 });
    expect(saidOf(run, length("x=500"))).toEqual([]);
    expect(saidOf(run, length("x=700"))).toEqual([["station-outside-travel", 7, "station"]]);
  });

  test.each([
    ["5°", "station-near-quadrant"],
    ["90°", "station-near-quadrant"],
    ["99.5°", "station-near-quadrant"],
    ["355°", "station-near-quadrant"],
    ["30°", "station-unknown"],
    ["x=300 y=250", "station-unknown"],
  ])("of a ring at %s are refused as %s", (station, code) => {
    const run = { kind: "run-begun", run: "ring", check: "ring-diameters" };
    const taken = { kind: "reading-taken", run: "ring", station, unit: "mm", value: 114 };
    expect(saidOf(run, taken)).toEqual([[code, 7, "station"]]);
    expect(saidOf(run, { ...taken, station: "15°" })).toEqual([]);
  });

  test("of a ring too large for the travel have no station", () => {
    const run = { kind: "run-begun", run: "ring", check: "ring-diameters", options: { radiusMm: 400 } };
    const taken = { kind: "reading-taken", run: "ring", station: "15°", unit: "mm", value: 794 };
    expect(saidOf(run, taken)).toEqual([["station-unknown", 7, "station"]]);
  });

  test("withdrawn that nobody took are refused", () => {
    const event = { kind: "reading-withdrawn", reading: sampleId(50), because: "wrong" };
    expect(saidOf(event)).toEqual([["reading-unknown", 6, "reading"]]);
    expect(saidOf({ kind: "reading-restored", reading: sampleId(2) })).toEqual([["reading-unknown", 6, "reading"]]);
  });

  test("of a refused run are not refused once more", () => {
    const run = { kind: "run-begun", run: "r", check: "gap-under-bream" };
    expect(saidOf(run, reading({ run: "r", unit: "N", value: 1 }))).toEqual([["check-unknown", 6, "check"]]);
  });
});

describe("runs", () => {
  const begun = (body: Record<string, unknown>) => ({ kind: "run-begun", run: "r", check: "upright-gap", ...body });

  test("keep what was stated, and nothing where nothing was", () => {
    const square = { kind: "object-added", object: { id: "square-1", kind: "square" } };
    const stated = {
      instrument: "leaves",
      objects: { square: "square-1" },
      options: { towards: "fore", heightMm: 80 },
      conditions: { hose: "off", temperatureC: 18, carriageParkedMm: 300, note: "door open" },
    };
    const { runs, objects } = timelineAfter(square, begun(stated));
    expect(runs.at(-1)).toEqual({
      id: "r",
      check: "upright-gap",
      at: Date.UTC(2026, 2, 14, 15, 0, 6),
      factor: 1,
      withdrawn: null,
      ...stated,
    });
    expect(objects.get("square-1")?.family).toBe("square");
    expect(timelineAfter(begun({})).runs.at(-1)).toMatchObject({
      instrument: null,
      objects: {},
      options: {},
      conditions: {},
    });
  });

  test("are withdrawn, restored and reinterpreted by what was said last; what was typed stays", () => {
    const again = (factor: number) => ({ kind: "run-reinterpreted", run: "gap-1", factor, because: "in thousandths" });
    expect(timelineAfter(again(0.0254)).runs[0]?.factor).toBe(0.0254);
    expect(timelineAfter(again(0.0254), again(1)).runs[0]?.factor).toBe(1);
    expect(timelineAfter(again(-1)).readings[0]?.entries).toEqual(timelineAfter().readings[0]?.entries);
    const withdrawn = { kind: "run-withdrawn", run: "gap-1", because: "bench was moved" };
    expect(timelineAfter(withdrawn).runs[0]?.withdrawn).toBe("bench was moved");
    expect(timelineAfter(withdrawn, { kind: "run-restored", run: "gap-1" }).runs[0]?.withdrawn).toBeNull();
  });

  test.each([
    ["of an unknown check", begun({ check: "uprigth-gap" }), "check-unknown", "check"],
    ["begun twice", begun({ run: "gap-1", check: "gap-under-beam" }), "run-begun-twice", "run"],
    ["with an unknown instrument", begun({ instrument: "leafs" }), "instrument-unknown", "instrument"],
    ["with an unknown object", begun({ objects: { square: "s" } }), "object-unknown", "objects.square"],
    [
      "with a choice that the check has not",
      begun({ options: { toward: "fore" } }),
      "option-unknown",
      "options.toward",
    ],
    ["with an answer that is none", begun({ options: { towards: "rear" } }), "option-not-possible", "options.towards"],
    ["with a height that cannot be", begun({ options: { heightMm: 5000 } }), "option-not-possible", "options.heightMm"],
    ["that is not there but withdrawn", { kind: "run-withdrawn", run: "r", because: "x" }, "run-unknown", "run"],
    [
      "that is not there but reinterpreted",
      { kind: "run-reinterpreted", run: "r", factor: 2, because: "x" },
      "run-unknown",
      "run",
    ],
  ])("%s are refused", (_, body, code, field) => {
    expect(saidOf(body)).toEqual([[code, 6, field]]);
  });

  test("of a check that the layout has not are refused", () => {
    const [described, ...others] = soundLogbook(begun({ check: "stop-gaps" }));
    const machine = { ...sampleMachine, layout: "fixed-bridge" };
    expect(saidOfEvents([{ ...described!, machine } as LogEvent, ...others])).toEqual([
      ["check-of-other-layout", 6, "check"],
    ]);
  });

  test("with an object in a role that the check has not are refused", () => {
    const square = { kind: "object-added", object: { id: "s", kind: "square" } };
    expect(saidOf(square, begun({ objects: { squares: "s" } }))).toEqual([["role-unknown", 7, "objects.squares"]]);
  });

  test("read with an unusual instrument are remarked on and taken", () => {
    const dial = { kind: "instrument-added", instrument: { id: "dial", kind: "dial-indicator" } };
    const run = begun({ instrument: "dial", check: "gap-under-beam" });
    expect(saidOf(dial, run)).toEqual([["instrument-unusual", 7, "instrument"]]);
    expect(timelineAfter(dial, run).runs).toHaveLength(2);
  });
});

test("runs read with an instrument that shows another quantity are refused", () => {
  const scale = { kind: "instrument-added", instrument: { id: "pull", kind: "luggage-scale" } };
  const run = { kind: "run-begun", run: "r", check: "gap-under-beam", instrument: "pull" };
  expect(saidOf(scale, run)).toEqual([["instrument-of-other-quantity", 7, "instrument"]]);
});

describe("instruments and objects", () => {
  test("are as they were last added", () => {
    const finer = {
      kind: "instrument-added",
      instrument: { id: "leaves", kind: "feeler-leaves", figures: { settingMm: 0.01 } },
    };
    expect(timelineAfter(finer).instruments.get("leaves")).toMatchObject({ settingMm: 0.01, family: "feeler" });
    expect(timelineAfter().instruments.get("leaves")).toMatchObject({ settingMm: 0.02 });
  });

  test.each([
    [{ kind: "instrument-added", instrument: { id: "a", kind: "feeler-leafs" } }, "kind-unknown", "instrument.kind"],
    [{ kind: "object-added", object: { id: "a", kind: "sqare" } }, "kind-unknown", "object.kind"],
  ])("%j is refused", (body, code, field) => {
    expect(saidOf(body)).toEqual([[code, 6, field]]);
  });
});

describe("happenings and wishes", () => {
  test("come in order, a move that was undone excepted", () => {
    const { happenings } = timelineAfter(
      { kind: "homed" },
      { kind: "move-made", adjuster: "rail.left.front", amount: 0.2 },
      { kind: "move-made", adjuster: "rail.left.rear", amount: 0.1 },
      { kind: "knocked", note: "door" },
      { kind: "part-replaced", members: ["slide", "spindle"] },
      { kind: "move-undone", move: sampleId(6) },
      { kind: "skimmed" },
      { kind: "transported" },
      { kind: "powered-on" },
    );
    expect(happenings.map(({ at: _, id: __, ...rest }) => rest)).toEqual([
      { kind: "homed" },
      { kind: "moved", adjuster: "rail.left.rear", amount: 0.1 },
      { kind: "knocked", members: [] },
      { kind: "part-replaced", members: ["slide", "spindle"] },
      { kind: "skimmed" },
      { kind: "transported" },
      { kind: "powered-on" },
    ]);
  });

  test("limits are kept in the finding's unit, and null takes one back", () => {
    const limit = (value: number | null, unit: string) => ({
      kind: "limit-set",
      finding: "squareness",
      limit: value,
      unit,
    });
    expect(timelineAfter(limit(500, "um/m")).limits.get("squareness")).toBe(0.5);
    expect(timelineAfter(limit(1, "mm/m"), limit(null, "mm/m")).limits.size).toBe(0);
  });

  test("priors are kept by mode, and null takes one back", () => {
    const prior = (sd: number | null) => ({ kind: "prior-set", mode: "slide.lean.fore", standardUncertainty: sd });
    expect(timelineAfter(prior(2), prior(1)).priors.get("slide.lean.fore")).toBe(1);
    expect(timelineAfter(prior(2), prior(null)).priors.size).toBe(0);
  });

  test.each([
    [{ kind: "move-made", adjuster: "rail.left.frnt", amount: 1 }, "adjuster-unknown", "adjuster"],
    [{ kind: "move-undone", move: sampleId(2) }, "move-unknown", "move"],
    [{ kind: "limit-set", finding: "squarenes", limit: 1, unit: "mm/m" }, "finding-unknown", "finding"],
    [{ kind: "limit-set", finding: "squareness", limit: 1, unit: "mm" }, "unit-of-other-quantity", "unit"],
    [{ kind: "prior-set", mode: "slide.lean", standardUncertainty: 1 }, "mode-unknown", "mode"],
  ])("%j is refused", (body, code, field) => {
    expect(saidOf(body)).toEqual([[code, 6, field]]);
  });

  test("notes and photographs leave the timeline as it was", () => {
    const note = { kind: "note-added", text: "rain all week" };
    const photograph = {
      kind: "photograph-added",
      name: "left plate",
      sha256: "ab".repeat(32),
      mediaType: "image/jpeg",
      bytes: 1,
    };
    expect(
      timelineAfter(note, photograph, { kind: "machine-set-aside", because: "sold" }, { kind: "machine-brought-back" }),
    ).toEqual(timelineAfter());
  });
});

test("what is wrong comes in the order of the lines, twenty things at most", () => {
  const wrong = Array.from({ length: 30 }, (_, n) =>
    n % 2 ? { kind: "move-made", adjuster: "a", amount: 1 } : reading({ run: "no" }),
  );
  const said = saidOf(...wrong.map((body) => ("run" in body ? { ...body, passed: true } : body)));
  expect(said).toHaveLength(21);
  const lines = said.slice(0, 20).map(([, line]) => line as number);
  expect(lines).toEqual([...lines].sort((a, b) => a - b));
  expect(said.at(-1)?.[0]).toBe("logbook-more");
});
