import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { wordsForDiagnostic } from "./diagnostic-words.ts";
import { type NumberQuestion, readNumber } from "./number-entry.ts";
import { coreFromUnit, unitIds, unitOf } from "./units.ts";

const inMm: NumberQuestion = { quantity: "length", usualUnit: "mm" };
const inInches: NumberQuestion = { quantity: "length", usualUnit: "in" };

function coreValue(text: string, question = inMm): number {
  const outcome = readNumber(text, question);
  if (!outcome.ok) throw new Error(`${text}: ${outcome.diagnostics.map(({ code }) => code).join()}`);
  return outcome.value.value;
}

function refusalOf(text: string, question = inMm) {
  const outcome = readNumber(text, question);
  expect(outcome.ok, text).toBe(false);
  return { code: outcome.diagnostics[0]!.code, column: outcome.diagnostics[0]!.where.column };
}

describe("numbers as people type them", () => {
  test.each([
    ["0.35", 0.35],
    ["0,35", 0.35],
    [".35", 0.35],
    [",35", 0.35],
    ["5.", 5],
    ["+0.35", 0.35],
    ["-1.2", -1.2],
    ["−1,2", -1.2],
    ["–1.2", -1.2],
    [" 0.35 mm ", 0.35],
    ["0.35mm", 0.35],
    ["0.35 MM", 0.35],
    ["350 µm", 0.35],
    ["350um", 0.35],
    ["13 thou", 0.3302],
    ["13thou", 0.3302],
    ["0.013in", 0.3302],
    ["3/16in", 4.7625],
    ['3/16"', 4.7625],
    ["3/16″", 4.7625],
    ["3⁄16 in", 4.7625],
    ["1 3/16in", 30.1625],
    ["½ in", 12.7],
    ["1½in", 38.1],
    ["1 ½ in", 38.1],
    ["1/2 mm", 0.5],
    ["2.5cm", 25],
    ["0.9 m", 900],
    ["0", 0],
    ["-0", 0],
  ])("%j is %f mm", (text, value) => {
    expect(coreValue(text)).toBe(value);
  });

  test("nothing typed with a minus is plain nothing", () => {
    expect(Object.is(coreValue("-0.00"), 0)).toBe(true);
  });

  test("where inches are usual a bare fraction is one of an inch, and a bare number is in inches", () => {
    expect(coreValue("3/16", inInches)).toBe(4.7625);
    expect(coreValue("1 3/16", inInches)).toBe(30.1625);
    expect(coreValue("-1/64", inInches)).toBe(-0.396875);
    expect(coreValue("0.013", inInches)).toBe(0.3302);
  });

  test("a stack gives its sum and its leaves", () => {
    expect(readNumber("0.20+0.15", inMm)).toMatchObject({ ok: true, value: { value: 0.35, addends: [0.2, 0.15] } });
    expect(readNumber("0,1 + 0,2", inMm)).toMatchObject({ ok: true, value: { value: 0.3, addends: [0.1, 0.2] } });
    expect(readNumber("+1+0.95+0.9", inMm)).toMatchObject({ ok: true, value: { value: 2.85 } });
    expect(readNumber("5+8 thou", inMm)).toMatchObject({
      ok: true,
      value: { value: 0.3302, unit: "thou", valueInUnit: 13 },
    });
    expect(readNumber("5 thou + 8", inMm)).toMatchObject({ ok: true, value: { value: 0.3302 } });
    expect(readNumber("0.5 mm + 5 thou", inMm)).toMatchObject({
      ok: true,
      value: { value: 0.627, addends: [0.5, 0.127] },
    });
    expect(readNumber("1/64 + 1/32 in", inMm)).toMatchObject({ ok: true, value: { value: 1.190625 } });
  });

  test("a slope takes units of slope, a force units of force", () => {
    expect(coreValue("0.5", { quantity: "slope", usualUnit: "mm/m" })).toBe(0.5);
    expect(coreValue("0.006 in/ft", { quantity: "slope", usualUnit: "mm/m" })).toBe(0.5);
    expect(coreValue("0.1°", { quantity: "slope", usualUnit: "mm/m" })).toBeCloseTo(1.7453292519943295, 14);
    expect(coreValue("30'", { quantity: "slope", usualUnit: "deg" })).toBeCloseTo(8.726646259971648, 13);
    expect(coreValue("2 kg", { quantity: "force", usualUnit: "N" })).toBe(19.6133);
    expect(coreValue("62", { quantity: "frequency", usualUnit: "Hz" })).toBe(62);
  });

  test("what can be read in two ways is refused at the place where the doubt begins", () => {
    expect(refusalOf("1.000,5")).toEqual({ code: "number-with-two-marks", column: 6 });
    expect(refusalOf("1,000.5")).toEqual({ code: "number-with-two-marks", column: 6 });
    expect(refusalOf("1.000.000")).toEqual({ code: "number-with-two-marks", column: 6 });
    expect(refusalOf("1 250")).toEqual({ code: "number-with-gap", column: 2 });
    expect(refusalOf("1 000,5")).toEqual({ code: "number-with-gap", column: 2 });
    expect(refusalOf("3/16")).toEqual({ code: "fraction-needs-unit", column: undefined });
    expect(refusalOf("0.20+1/16")).toMatchObject({ code: "fraction-needs-unit" });
    expect(refusalOf("5 thou + 0.2 mm + 1")).toMatchObject({ code: "sum-with-unclear-units" });
  });

  test("a comma before three digits is a decimal mark, and is said to be one", () => {
    const outcome = readNumber("1,250", inMm);
    expect(outcome).toMatchObject({ ok: true, value: { value: 1.25 } });
    expect(outcome.diagnostics).toMatchObject([
      { code: "comma-taken-as-decimal-mark", severity: "warning", where: { column: 2 } },
    ]);
    expect(readNumber("0,125", inMm).diagnostics).toEqual([]);
    expect(readNumber("1.250", inMm).diagnostics).toEqual([]);
  });

  test.each([
    ["", "number-missing"],
    ["  ", "number-missing"],
    ["abc", "number-not-readable"],
    [".", "number-not-readable"],
    ["--1", "number-not-readable"],
    ["+-1", "number-not-readable"],
    ["±0.1", "number-not-readable"],
    ["0.2++0.1", "number-not-readable"],
    ["0.2+", "number-not-readable"],
    ["0.35/0.40", "number-not-readable"],
    ["1-3/16in", "number-not-readable"],
    ["1e3", "unit-not-known"],
    ["0x10", "unit-not-known"],
    ["NaN", "number-not-readable"],
    ["1.5 furlongs", "unit-not-known"],
    ["3/0 in", "fraction-not-possible"],
    ["1 19/16 in", "fraction-not-possible"],
    ["-0.2+0.15", "sum-with-minus"],
    ["0.35 mm/m", "unit-of-other-quantity"],
    ["12 Hz", "unit-of-other-quantity"],
    ["9".repeat(400), "number-not-readable"],
  ])("%j is refused as %s", (text, code) => {
    expect(refusalOf(text).code).toBe(code);
  });

  test("a refusal in a pasted table counts the column from where the cell begins", () => {
    const where = { file: "gaps.csv", line: 4, column: 11, field: "goes" };
    const outcome = readNumber(" 0.20 + 0.1x", { ...inMm, where });
    expect(outcome.diagnostics).toMatchObject([
      { code: "unit-not-known", where: { ...where, column: 22 }, data: { text: "x" } },
    ]);
  });

  test("every refusal says what is wrong, what was expected and what to do", () => {
    for (const text of ["", "x", "1.0,0", "1 2", "3/16", "3/0in", "-1+1", "1mm+1in+1", "1 ell", "1 Hz"]) {
      const [diagnostic] = readNumber(text, inMm).diagnostics;
      const words = wordsForDiagnostic(diagnostic!.code, diagnostic!.data);
      for (const part of [words.what, words.expected, words.remedy]) expect(part).toMatch(/^[^.].{8,}[^.]$/);
      expect(Object.values(words).join()).not.toMatch(/undefined|please|error/i);
    }
  });

  test("a decimal written with any mark, sign and unit is read to the last digit", () => {
    fc.assert(
      fc.property(
        // Up to a million with six decimals: more than any instrument of this trade shows.
        fc.integer({ min: -(10 ** 12), max: 10 ** 12 }),
        fc.integer({ min: 0, max: 6 }),
        fc.constantFrom(".", ","),
        fc.constantFrom("-", "−"),
        fc.constantFrom("", " "),
        (digits, decimals, mark, minus, gap) => {
          const value = digits / 10 ** decimals;
          const text = value.toFixed(decimals).replace(".", mark).replace("-", minus);
          expect(coreValue(`${text}${gap}mm`)).toBe(value === 0 ? 0 : value);
        },
      ),
      { seed: 20250104, numRuns: 500 },
    );
  });

  test("the value in the typed unit and the value in the core's unit belong together", () => {
    fc.assert(
      fc.property(fc.constantFrom(...unitIds), fc.integer({ min: -9999, max: 9999 }), (id, hundredths) => {
        const typed = hundredths / 100;
        const { quantity, symbol } = unitOf(id);
        const outcome = readNumber(`${typed} ${symbol}`, { quantity, usualUnit: id });
        if (!outcome.ok) throw new Error(outcome.diagnostics[0]!.code);
        expect(outcome.value.unit).toBe(id);
        expect(outcome.value.valueInUnit).toBeCloseTo(typed, 12);
        expect(outcome.value.value).toBeCloseTo(coreFromUnit(typed, id), 8);
      }),
      { seed: 20250105, numRuns: 300 },
    );
  });

  test("a stack weighs the same in whichever order its leaves are typed", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 2, maxLength: 3 }), (twentieths) => {
        const leaves = twentieths.map((count) => (count * 0.05).toFixed(2));
        expect(coreValue(leaves.join("+"))).toBe(coreValue([...leaves].reverse().join(" + ")));
      }),
      { seed: 20250106 },
    );
  });

  test("nothing that can be typed makes it throw, and whatever is read is a finite number", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: "binary" }),
          fc.string({ unit: fc.constantFrom(..."0123456789.,+-−/ mthoui°½\"'") }),
        ),
        (text) => {
          const outcome = readNumber(text, inMm);
          if (outcome.ok) expect(Number.isFinite(outcome.value.value)).toBe(true);
          else expect(outcome.diagnostics[0]?.severity).toBe("refusal");
        },
      ),
      { seed: 20250107, numRuns: 3000 },
    );
  });
});
