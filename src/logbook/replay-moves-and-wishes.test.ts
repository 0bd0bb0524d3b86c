import { describe, expect, test } from "vitest";
import { saidOf, timelineAfter } from "../../tests/logbook/replayed.ts";
import { sampleId, sampleMachine } from "../../tests/logbook/sample-events.ts";
import { noWishes } from "../core/planning/wishes.ts";

describe("what is wished for", () => {
  const plate = { kind: "depth-spread", sizes: { widthMm: 400 }, limit: 150, unit: "um" };
  const demand = (name: string, wish: unknown) => ({ kind: "demand-set", name, demand: wish });

  test("is nothing in a logbook that says nothing of it", () => {
    expect(timelineAfter().wishes).toEqual(noWishes);
  });

  test("is a kind of work, the one that was chosen last, and null for the usual one", () => {
    const chosen = (kindOfWork: string | null) => ({ kind: "work-chosen", kindOfWork });
    expect(timelineAfter(chosen("inlay"), chosen("lettering")).wishes.kindOfWork).toBe("lettering");
    expect(timelineAfter(chosen("inlay"), chosen(null)).wishes.kindOfWork).toBeNull();
    expect(saidOf(chosen("letering"))).toEqual([["kind-of-work-unknown", 6, "kindOfWork"]]);
  });

  test("are demands by their names in the kind's unit, the latest of a name, and null drops one", () => {
    const { demands } = timelineAfter(
      demand("sign", { ...plate, limit: 1 }),
      demand("tray", { kind: "sides", limit: 0.01, unit: "in", place: { x: 300, y: 250 } }),
      demand("sign", plate),
      demand("lid", plate),
      demand("lid", null),
    ).wishes;
    expect([...demands]).toEqual([
      ["tray", { kind: "sides", sizes: {}, place: { x: 300, y: 250 }, limit: 0.254 }],
      ["sign", { kind: "depth-spread", sizes: { widthMm: 400 }, limit: 0.15 }],
    ]);
  });

  test("is refused where there is no room for it on the machine, unless it has been dropped", () => {
    const wide = demand("sign", { ...plate, sizes: { widthMm: 800 } });
    expect(saidOf(wide)).toEqual([["demand-size-beyond-reach", 6, "demand.sizes.widthMm"]]);
    expect(saidOf(wide, demand("sign", null))).toEqual([]);
    expect(saidOf(wide, demand("sign", plate))).toEqual([]);
  });

  test("are own limits for demands of the kind of work; null drops a demand, nothing goes back to the usual", () => {
    const limit = (body: Record<string, unknown>) => ({ kind: "demand-limit-set", demand: "tram 200", ...body });
    const limitsAfter = (...bodies: Record<string, unknown>[]) => [
      ...timelineAfter(...bodies.map(limit)).wishes.demandLimits,
    ];
    expect(limitsAfter({ limit: 0.1 }, { limit: 80, unit: "um" })).toEqual([["tram 200", 0.08]]);
    expect(limitsAfter({ limit: 0.1 }, { limit: null })).toEqual([["tram 200", null]]);
    expect(limitsAfter({ limit: 0.1 }, {})).toEqual([]);
  });

  test("are a skim, a stock and locks, each as it was said last", () => {
    const { willSkim, locks } = timelineAfter(
      { kind: "skim-decided", will: false },
      { kind: "skim-decided", will: true },
      { kind: "adjuster-locked", adjuster: "beam.left", because: "glued" },
      { kind: "adjuster-locked", adjuster: "beam.right", because: "no key" },
      { kind: "adjuster-unlocked", adjuster: "beam.left" },
    ).wishes;
    expect(willSkim).toBe(true);
    expect([...locks]).toEqual([["beam.right", "no key"]]);
  });

  test("is packed with what is at hand: less what moves have laid since, with what they took out", () => {
    const stock = (leavesMm: readonly number[] | null) => ({ kind: "stock-set", leavesMm });
    const packed = (laidMm: readonly number[], takenOutMm: readonly number[] = []) => ({
      kind: "move-made",
      adjuster: "rail.left.front",
      amount: 0.1,
      leaves: { laidMm, takenOutMm },
    });
    const left = (...bodies: Record<string, unknown>[]) => timelineAfter(...bodies).wishes.stockMm;
    expect(left(stock([0.1, 0.2, 0.1]))).toEqual([0.2, 0.1, 0.1]);
    expect(left(stock([0.1, 0.2, 0.1]), packed([0.1]), packed([0.5, 0.2], [0.3]))).toEqual([0.3, 0.1]);
    expect(left(packed([0.1]), stock([0.1]))).toEqual([0.1]);
    expect(left(stock([0.1]), packed([0.1]), { kind: "move-undone", move: sampleId(6) })).toEqual([0.1]);
    expect(left(stock([]), packed([], [0.2]))).toEqual([0.2]);
    expect(left(stock([0.1]), stock(null), packed([], [0.2]))).toBeNull();
  });

  test("are own figures of an adjuster, the latest statement whole", () => {
    const changed = (body: Record<string, unknown>) => ({ kind: "adjuster-changed", adjuster: "beam.left", ...body });
    const range = { from: -0.2, to: 0.3 };
    const { adjusterChanges } = timelineAfter(
      changed({ minutes: 3 }),
      changed({ range, standardUncertainty: 0.02, available: false }),
    );
    expect([...adjusterChanges]).toEqual([["beam.left", { range: [-0.2, 0.3], sd: 0.02, available: false }]]);
    expect(timelineAfter(changed({ minutes: 3 }), changed({})).adjusterChanges.size).toBe(0);
    expect([...timelineAfter(changed({ screwPitchMm: 0.8 })).adjusterChanges]).toEqual([
      ["beam.left", { screwPitchMm: 0.8 }],
    ]);
    for (const adjuster of ["rail.left.front", "play.x", "steps.y", "bed.skim"]) {
      expect(saidOf({ ...changed({ screwPitchMm: 0.8 }), adjuster }), adjuster).toEqual([
        ["adjuster-without-screw", 6, "screwPitchMm"],
      ]);
    }
    expect(saidOf(changed({ range: { from: 0.1, to: 0.3 } }))).toEqual([["adjuster-range-unfit", 6, "range"]]);
    expect(saidOf({ ...changed({ range: { from: 0.1, to: 0.3 } }), adjuster: "rail.left.front" })).toEqual([]);
    expect(saidOf({ ...changed({ range: { from: -0.1, to: 0.3 } }), adjuster: "rail.left.front" })).toEqual([
      ["adjuster-range-unfit", 6, "range"],
    ]);
  });

  test.each([
    [demand("sign", { ...plate, kind: "depth-sprad" }), "demand-kind-unknown", "demand.kind"],
    [demand("sign", { ...plate, sizes: { witdhMm: 1 } }), "demand-size-unknown", "demand.sizes.witdhMm"],
    [demand("sign", { ...plate, unit: "mm/m" }), "unit-of-other-quantity", "demand.unit"],
    [demand("sign", { ...plate, place: { x: 900, y: 0 } }), "demand-place-outside", "demand.place"],
    [{ kind: "demand-limit-set", demand: "trem 200", limit: 0.1 }, "demand-kind-unknown", "demand"],
    [{ kind: "demand-limit-set", demand: "tram 200", limit: 1, unit: "N" }, "unit-of-other-quantity", "unit"],
    [{ kind: "adjuster-locked", adjuster: "beam.lft", because: "x" }, "adjuster-unknown", "adjuster"],
    [{ kind: "adjuster-unlocked", adjuster: "beam.lft" }, "adjuster-unknown", "adjuster"],
    [{ kind: "adjuster-changed", adjuster: "beam.lft", minutes: 3 }, "adjuster-unknown", "adjuster"],
  ])("%j is refused", (body, code, field) => {
    expect(saidOf(body)).toEqual([[code, 6, field]]);
  });
});

describe("a move", () => {
  const gauge = { run: "gap-1", station: "front right", unit: "mm", nipped: { value: 0.5 }, final: { goes: 0.5 } };
  const move = (body: Record<string, unknown> = {}) => ({
    kind: "move-made",
    adjuster: "beam.right",
    amount: 0.1,
    ...body,
  });

  test("keeps what was advised and what the gauge read, in core units", () => {
    const inch = { ...gauge, unit: "in", nipped: { value: 0.02 }, final: { goes: 0.02, doesNotGo: 0.022 } };
    const run = { kind: "run-begun", run: "r", check: "gap-under-beam" };
    const { happenings } = timelineAfter(run, move({ planned: 0.12, gauge: { ...inch, run: "r" } }));
    expect(happenings).toMatchObject([
      {
        kind: "moved",
        amount: 0.1,
        planned: 0.12,
        gauge: {
          run: "r",
          station: "front right",
          loose: null,
          nipped: { form: "value", value: 0.508 },
          final: { form: "interval", goes: 0.508, doesNotGo: 0.5588 },
        },
      },
    ]);
  });

  test.each([
    ["an unknown run", { ...gauge, run: "gap-2" }, "run-unknown", "gauge.run"],
    ["an unknown station", { ...gauge, station: "front rihgt" }, "station-unknown", "gauge.station"],
    ["a force", { ...gauge, unit: "N" }, "unit-of-other-quantity", "gauge.nipped"],
    ["a gap of ten kilometres", { ...gauge, nipped: { value: 1e7 } }, "reading-not-plausible", "gauge.nipped.value"],
  ])("with a gauge that names %s is refused", (_, bad, code, field) => {
    expect(saidOf(move({ gauge: bad }))[0]).toEqual([code, 6, field]);
  });

  test("and anything else that was entered by mistake has never been, each by its own event", () => {
    const knock = { kind: "knocked" };
    const withdrawn = { kind: "happening-withdrawn", happening: sampleId(5), because: "slip" };
    expect(timelineAfter(knock, withdrawn).happenings).toEqual([]);
    expect(timelineAfter(knock).happenings).toHaveLength(1);
    expect(saidOf(move(), withdrawn)).toEqual([["happening-unknown", 7, "happening"]]);
    expect(saidOf({ ...withdrawn, happening: sampleId(3) })).toEqual([["happening-unknown", 6, "happening"]]);
  });
});

describe("packing", () => {
  const described = (packingNowMm: Record<string, number>, at: string) => ({
    kind: "machine-described",
    machine: { ...sampleMachine, details: { packingNowMm } },
    at,
  });

  test("was stated when its amount was first said, not when the description was corrected", () => {
    const later = "2026-03-15T16:00:00+01:00";
    const last = "2026-03-16T16:00:00+01:00";
    const first = described({ "rail.left.front": 0.2, "rail.left.rear": 0.1 }, later);
    const again = described({ "rail.left.front": 0.2, "rail.left.rear": 0.3 }, last);
    expect([...timelineAfter(first, again).packingStatedAt]).toEqual([
      ["rail.left.front", Date.parse(later)],
      ["rail.left.rear", Date.parse(last)],
    ]);
  });

  test("lies behind the bottom screws with a minus, and nowhere else", () => {
    const at = "2026-03-15T16:00:00+01:00";
    expect(saidOf(described({ "slide.packing": -0.2 }, at))).toEqual([]);
    expect(saidOf(described({ "rail.left.front": -0.2 }, at))).toEqual([
      ["packing-below-nothing", 6, "machine.details.packingNowMm.rail.left.front"],
    ]);
  });
});
