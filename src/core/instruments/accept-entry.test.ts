import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { wordsForDiagnostic } from "../base/diagnostic-words.ts";
import { acceptEntry, type EntryOptions, type TypedEntry, typedLeavesFromText } from "./accept-entry.ts";
import type { Instrument, InstrumentId, InstrumentKindId } from "./instrument.ts";
import { stacksOf } from "./leaves.ts";
import { problemsOfEntry } from "./possible-readings.ts";

const ids = { id: "one" as InstrumentId, kind: "some" as InstrumentKindId };
const twenty = Array.from({ length: 20 }, (_, index) => Number(((index + 1) * 0.05).toFixed(2)));

const feeler = {
  ...ids,
  name: "feeler leaves",
  family: "feeler",
  markedIn: "mm",
  measures: "length",
  settingMm: 0.02,
  lasts: "offset",
  maxPermissibleError: { constantMm: 0.01 },
  leaves: { leavesMm: twenty, largestStack: 3 },
} as const satisfies Instrument;
const thouFeeler: Instrument = {
  ...feeler,
  markedIn: "thou",
  leaves: {
    leavesMm: [1.5, ...Array.from({ length: 24 }, (_, index) => index + 2)].map((thou) => thou * 0.0254),
    largestStack: 3,
  },
};
const calipers: Instrument = {
  ...ids,
  name: "calipers",
  family: "calipers",
  markedIn: "mm",
  measures: "length",
  rangeMm: { from: 0, to: 150 },
  settingMm: 0.03,
  lasts: "none",
};
const dial: Instrument = { ...calipers, name: "dial", family: "dial", rangeMm: { from: -10, to: 10 } };
const level: Instrument = {
  ...ids,
  name: "level",
  family: "level",
  markedIn: "mm/m",
  measures: "slope",
  settingMmPerM: 0.3,
};
const tuner: Instrument = {
  ...ids,
  name: "tuner",
  family: "tuner",
  markedIn: "Hz",
  measures: "frequency",
  rangeHz: { from: 5, to: 5000 },
  maxPermissibleErrorShare: 0.01,
};
const look: Instrument = { ...ids, name: "look", family: "look", measures: "eye" };

const leaves = (goes?: string, doesNotGo?: string): TypedEntry => ({
  form: "leaves",
  ...(goes !== undefined && { goes }),
  ...(doesNotGo !== undefined && { doesNotGo }),
});
const value = (text: string): TypedEntry => ({ form: "value", text });

function entryOf(instrument: Instrument, typed: TypedEntry, options?: EntryOptions) {
  const outcome = acceptEntry(instrument, typed, options);
  if (!outcome.ok) throw new Error(outcome.diagnostics.map(({ code }) => code).join());
  return outcome.value.entry;
}

function refusalOf(instrument: Instrument, typed: TypedEntry) {
  const outcome = acceptEntry(instrument, typed);
  expect(outcome.ok).toBe(false);
  const { code, data, where } = outcome.diagnostics[0]!;
  return { code, field: where.field, ...data };
}

describe("leaves", () => {
  test("what goes and what does not are an interval", () => {
    expect(entryOf(feeler, leaves("0.35", "0.40"))).toEqual({ form: "interval", goes: 0.35, doesNotGo: 0.4 });
    expect(entryOf(feeler, leaves("0,20+0,15", "0.4mm"))).toEqual({ form: "interval", goes: 0.35, doesNotGo: 0.4 });
    expect(entryOf(feeler, leaves("0.20", "0.35"))).toEqual({ form: "interval", goes: 0.2, doesNotGo: 0.35 });
  });

  test("what goes alone is completed by the next leaf of this set", () => {
    expect(entryOf(feeler, leaves("0.60"))).toEqual({ form: "interval", goes: 0.6, doesNotGo: 0.65 });
    expect(entryOf(feeler, leaves("0.60", "  "))).toEqual({ form: "interval", goes: 0.6, doesNotGo: 0.65 });
    expect(entryOf(feeler, value("0.60"))).toEqual({ form: "interval", goes: 0.6, doesNotGo: 0.65 });
  });

  test("the thickest that goes and the thinnest that does not are bounds", () => {
    expect(entryOf(feeler, leaves("2.85"))).toEqual({ form: "atLeast", bound: 2.85 });
    expect(entryOf(feeler, leaves(undefined, "0.05"))).toEqual({ form: "atMost", bound: 0.05 });
  });

  test("a thicker one that does not go says nothing while thinner ones are untried", () => {
    expect(refusalOf(feeler, leaves("", "0.40"))).toMatchObject({
      code: "leaf-that-goes-missing",
      field: "goes",
      text: "0.40",
    });
  });

  test("13.5 is thicker than any stack, and 1.35 was probably meant", () => {
    expect(refusalOf(feeler, leaves("13.5"))).toMatchObject({
      code: "leaves-out-of-range",
      side: "above",
      from: "0.05",
      to: "2.85",
      meant: "1.35 mm",
    });
  });

  test("0.53 is no stack of this set, and 0.35 was probably meant", () => {
    expect(refusalOf(feeler, leaves("0.53"))).toMatchObject({
      code: "leaves-cannot-make",
      below: "0.50",
      above: "0.55",
      meant: "0.35 mm",
    });
  });

  test("what no slip explains is refused with the nearest that can be made", () => {
    const { meant, ...refused } = refusalOf(feeler, leaves("1.23")) as { meant?: string; code: string };
    expect(meant).toBeUndefined();
    expect(refused).toMatchObject({ code: "leaves-cannot-make", below: "1.20", above: "1.25" });
    expect(refusalOf(feeler, leaves("0.9 m"))).toMatchObject({ code: "leaves-out-of-range", side: "above" });
    expect(refusalOf(feeler, leaves("0.02"))).toMatchObject({
      code: "leaves-out-of-range",
      side: "below",
      meant: "0.20 mm",
    });
  });

  test("a stack that goes cannot be as thick as the one that does not", () => {
    expect(refusalOf(feeler, leaves("0.40", "0.35"))).toMatchObject({ code: "leaves-crossed", field: "doesNotGo" });
    expect(refusalOf(feeler, leaves("0.40", "0.40"))).toMatchObject({ code: "leaves-crossed" });
  });

  test("leaves that are named one by one are in the set, once each, and not too many", () => {
    expect(refusalOf(feeler, leaves("0.20+0.20"))).toMatchObject({ code: "stack-not-allowed" });
    expect(refusalOf(feeler, leaves("0.05+0.10+0.15+0.20"))).toMatchObject({ code: "stack-not-allowed" });
    expect(refusalOf(feeler, leaves("0.22+0.13"))).toMatchObject({ code: "leaf-not-in-set", name: "0.22" });
  });

  test("a slope, a letter and an empty field are refused where they stand", () => {
    expect(refusalOf(feeler, leaves("0.35 mm/m"))).toMatchObject({ code: "unit-of-other-quantity", field: "goes" });
    expect(refusalOf(feeler, leaves("0.35", "o.40"))).toMatchObject({
      code: "number-not-readable",
      field: "doesNotGo",
    });
    expect(refusalOf(feeler, leaves())).toMatchObject({ code: "number-missing", field: "goes" });
    expect(refusalOf(feeler, { form: "verdict", passed: true })).toMatchObject({ code: "entry-needs-number" });
  });

  test("thousandths are typed as engraved, in inches, or in the rounded millimetres beside them", () => {
    const thirteen = { form: "interval", goes: 0.3302, doesNotGo: 0.3429 };
    expect(entryOf(thouFeeler, leaves("13"))).toEqual(thirteen);
    expect(entryOf(thouFeeler, leaves("0.013 in"))).toEqual(thirteen);
    expect(entryOf(thouFeeler, leaves("0.33 mm"))).toEqual(thirteen);
    expect(entryOf(thouFeeler, leaves("0.33"), { usualUnit: "mm" })).toEqual(thirteen);
    expect(entryOf(thouFeeler, leaves("5+8", "14"))).toEqual({ ...thirteen, doesNotGo: 0.3556 });
    expect(refusalOf(thouFeeler, leaves("13.2"))).toMatchObject({
      code: "leaves-cannot-make",
      below: "13",
      above: "13.5",
      unit: "thou",
    });
    expect(refusalOf(thouFeeler, leaves("130"))).toMatchObject({
      code: "leaves-out-of-range",
      meant: "13 thou",
      to: "72",
    });
  });

  test("millimetre leaves do not stand in for others, however near", () => {
    expect(refusalOf(feeler, leaves("0.352"))).toMatchObject({ code: "leaves-cannot-make" });
  });

  test("one cell of a table holds both fields, or a bound", () => {
    expect(typedLeavesFromText("0.35/0.40", "mm")).toEqual(leaves("0.35", "0.40"));
    expect(typedLeavesFromText("13/14", "thou")).toEqual(leaves("13", "14"));
    expect(typedLeavesFromText("3/16in", "mm")).toEqual(leaves("3/16in"));
    expect(entryOf(feeler, value("0,35 / 0,40"))).toEqual({ form: "interval", goes: 0.35, doesNotGo: 0.4 });
    expect(entryOf(feeler, value("<0.05"))).toEqual({ form: "atMost", bound: 0.05 });
    expect(entryOf(feeler, value("≥ 2.85"))).toEqual({ form: "atLeast", bound: 2.85 });
  });

  test("every stack of a set is accepted as its sum and as its leaves, and comes back as it was made", () => {
    const stacks = stacksOf(feeler.leaves);
    fc.assert(
      fc.property(fc.constantFrom(...stacks), ({ totalMm, leavesMm }) => {
        const asSum = entryOf(feeler, leaves(totalMm.toFixed(2)));
        expect(entryOf(feeler, leaves(leavesMm.map((leaf) => leaf.toFixed(2)).join("+")))).toEqual(asSum);
        if (asSum.form === "interval") expect(asSum.goes).toBe(totalMm);
        else expect(asSum).toEqual({ form: "atLeast", bound: 2.85 });
      }),
      { seed: 20250127 },
    );
  });

  test("whatever is accepted in hundredths can be made, and whatever is refused cannot", () => {
    const makeable = new Set(stacksOf(feeler.leaves).map(({ totalMm }) => Math.round(totalMm * 100)));
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 400 }), (hundredths) => {
        expect(acceptEntry(feeler, leaves((hundredths / 100).toFixed(2))).ok).toBe(makeable.has(hundredths));
      }),
      { seed: 20250128, numRuns: 300 },
    );
  });
});

describe("other instruments", () => {
  test("a number within the range is kept in the core's unit, with the unit it was typed in", () => {
    expect(acceptEntry(dial, value("−0,35"))).toMatchObject({
      ok: true,
      value: { entry: { form: "value", value: -0.35 }, unit: "mm" },
    });
    expect(acceptEntry(dial, value("13 thou"))).toMatchObject({
      ok: true,
      value: { entry: { form: "value", value: 0.3302 }, unit: "thou" },
    });
    expect(acceptEntry(calipers, value("5.5"), { usualUnit: "in" })).toMatchObject({
      ok: true,
      value: { entry: { value: 139.7 }, unit: "in" },
    });
    expect(entryOf(level, value("0.1°"))).toMatchObject({ form: "value", value: expect.closeTo(1.745329, 6) });
    expect(entryOf(tuner, value("62 Hz"))).toEqual({ form: "value", value: 62 });
    expect(entryOf(look, { form: "verdict", passed: false })).toEqual({ form: "verdict", passed: false });
  });

  test("the end of a range typed in another unit is still within", () => {
    expect(acceptEntry(calipers, value("5.9055118 in")).ok).toBe(true);
  });

  test("a number outside the range is refused with the range and, if the mark slipped, with what was meant", () => {
    expect(refusalOf(dial, value("13.5"))).toMatchObject({
      code: "reading-out-of-range",
      from: "−10",
      to: "10",
      unit: "mm",
      meant: "1.35 mm",
    });
    expect(refusalOf(calipers, value("-3"))).toMatchObject({ code: "reading-out-of-range", from: "0" });
    expect(refusalOf(calipers, value("0.9 m"))).toMatchObject({
      code: "reading-out-of-range",
      to: "0.15",
      unit: "m",
      meant: "0.09 m",
    });
  });

  test("a form that the instrument cannot have is refused", () => {
    expect(refusalOf(dial, leaves("0.2", "0.3")).code).toBe("entry-needs-leaves");
    expect(refusalOf(look, value("0.2")).code).toBe("entry-needs-verdict");
    expect(refusalOf(tuner, { form: "verdict", passed: true })).toMatchObject({
      code: "entry-needs-number",
      unit: "Hz",
    });
    expect(refusalOf(dial, value("0.2+0.3")).code).toBe("sum-without-leaves");
    expect(refusalOf(level, value("0.2 mm")).code).toBe("unit-of-other-quantity");
  });
});

describe("entries that come from a file", () => {
  test("what is accepted when typed has no problem when it is read again", () => {
    const typed: [Instrument, TypedEntry][] = [
      [feeler, leaves("0.35", "0.40")],
      [feeler, leaves("2.85")],
      [thouFeeler, leaves("0.33 mm")],
      [dial, value("-3")],
      [look, { form: "verdict", passed: true }],
    ];
    for (const [instrument, entry] of typed)
      expect(problemsOfEntry(instrument, entryOf(instrument, entry))).toEqual([]);
  });

  test("the rounded millimetres beside thousandths pass, the like of them beside millimetres do not", () => {
    expect(problemsOfEntry(thouFeeler, { form: "interval", goes: 0.33, doesNotGo: 0.34 })).toEqual([]);
    expect(problemsOfEntry(feeler, { form: "interval", goes: 0.352, doesNotGo: 0.4 })).toHaveLength(1);
  });

  test("what cannot have been read has the same codes as when it is typed", () => {
    const codes = (...args: Parameters<typeof problemsOfEntry>) => problemsOfEntry(...args).map(({ code }) => code);
    expect(codes(feeler, { form: "interval", goes: 0.53, doesNotGo: 13.5 })).toEqual([
      "leaves-cannot-make",
      "leaves-out-of-range",
    ]);
    expect(codes(feeler, { form: "interval", goes: 0.4, doesNotGo: 0.35 })).toEqual(["leaves-crossed"]);
    expect(codes(dial, { form: "value", value: 13.5 })).toEqual(["reading-out-of-range"]);
    expect(codes(dial, { form: "atLeast", bound: 1 })).toEqual(["entry-needs-leaves"]);
    expect(codes(dial, { form: "verdict", passed: true })).toEqual(["entry-needs-number"]);
    expect(codes(look, { form: "value", value: 1 })).toEqual(["entry-needs-verdict"]);
  });
});

test("every refusal has words without holes in them", () => {
  const typed: [Instrument, TypedEntry][] = [
    [feeler, leaves("13.5")],
    [feeler, leaves("9.99")],
    [feeler, leaves("0.01")],
    [feeler, leaves("0.53")],
    [feeler, leaves("1.23")],
    [feeler, leaves("0.4", "0.35")],
    [feeler, leaves("", "0.4")],
    [feeler, leaves("0.2+0.2")],
    [feeler, leaves("0.22+0.13")],
    [dial, value("13.5")],
    [dial, value("1+1")],
    [dial, leaves("1")],
    [look, value("1")],
    [dial, { form: "verdict", passed: true }],
  ];
  for (const [instrument, entry] of typed) {
    const { code, data } = acceptEntry(instrument, entry).diagnostics[0]!;
    for (const part of Object.values(wordsForDiagnostic(code, data))) {
      expect(part, code).toMatch(/^[^.].{5,}[^.]$/);
      expect(part, code).not.toMatch(/undefined|null|please|error/i);
    }
  }
});
