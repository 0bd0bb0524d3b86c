import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { InstrumentFigures, LengthFigures } from "./instrument.ts";
import {
  bestValue,
  limitOfReturn,
  type MeasuredEntry,
  readingUncertainty,
  repeatedReading,
} from "./reading-uncertainty.ts";

const dial: LengthFigures = { measures: "length", resolutionMm: 0.01, settingMm: 0.01, lasts: "offset" };
const feeler: LengthFigures = { measures: "length", settingMm: 0.02, lasts: "offset" };
const sticks: LengthFigures = { measures: "length", settingMm: 0.15, lasts: "none", readsDifference: true };
const level: InstrumentFigures = { measures: "slope", resolutionMmPerM: 0.1, settingMmPerM: 0.3 };

const value = (number: number): MeasuredEntry => ({ form: "value", value: number });

// Feels and steps from a thousandth of a millimetre to a whole one: every tool of the trade lies between.
const sizes = fc.double({ min: 0.001, max: 1, noNaN: true });

describe("one reading", () => {
  test("a value has a twelfth of its step's square and the feel's square", () => {
    expect(readingUncertainty(dial, value(0.13))).toBeCloseTo(Math.sqrt(0.01 ** 2 / 12 + 0.01 ** 2), 15);
    expect(readingUncertainty(level, value(0.3))).toBeCloseTo(Math.sqrt(0.1 ** 2 / 12 + 0.3 ** 2), 15);
  });

  test("an interval has a twelfth of its width's square, and is its mid point", () => {
    const entry: MeasuredEntry = { form: "interval", goes: 0.2, doesNotGo: 0.25 };
    expect(readingUncertainty(feeler, entry)).toBeCloseTo(0.0246644, 7);
    expect(bestValue(entry)).toBeCloseTo(0.225, 15);
  });

  test("a bound is as soft as the feel", () => {
    expect(readingUncertainty(feeler, { form: "atLeast", bound: 2.85 })).toBe(0.02);
    expect(bestValue({ form: "atMost", bound: 0.05 })).toBe(0.05);
  });

  test("a difference of two gaps has root two times as much, a tool that reads differences has not", () => {
    const entry: MeasuredEntry = { form: "interval", goes: 0.2, doesNotGo: 0.25 };
    const one = readingUncertainty(feeler, entry);
    expect(readingUncertainty(feeler, entry, { parts: 2 })).toBeCloseTo(Math.SQRT2 * one, 15);
    expect(readingUncertainty(sticks, value(-0.4), { parts: 2 })).toBe(0.15);
  });

  test("the rock of the tip counts once, also in a difference of two", () => {
    const u = readingUncertainty(dial, value(0.1), { parts: 2, rock: 0.05 });
    expect(u).toBeCloseTo(Math.sqrt(2 * (0.01 ** 2 / 12 + 0.01 ** 2) + 0.05 ** 2), 15);
  });

  test("more of anything never makes a reading surer", () => {
    fc.assert(
      fc.property(sizes, sizes, sizes, sizes, (resolutionMm, settingMm, rock, more) => {
        const figures: LengthFigures = { ...dial, resolutionMm, settingMm };
        const u = readingUncertainty(figures, value(0), { rock });
        expect(
          readingUncertainty({ ...figures, resolutionMm: resolutionMm + more }, value(0), { rock }),
        ).toBeGreaterThan(u);
        expect(readingUncertainty({ ...figures, settingMm: settingMm + more }, value(0), { rock })).toBeGreaterThan(u);
        expect(readingUncertainty(figures, value(0), { rock: rock + more })).toBeGreaterThan(u);
        expect(u).toBeGreaterThanOrEqual(Math.max(settingMm, rock));
      }),
      { seed: 20250120 },
    );
  });
});

describe("a reading that was repeated", () => {
  test("has the mean, the scatter, and the uncertainty of the mean", () => {
    const { mean, scatter, degreesOfFreedom, standardUncertainty } = repeatedReading(dial, [0.1, 0.16, 0.13]);
    expect(mean).toBeCloseTo(0.13, 12);
    expect(scatter).toBeCloseTo(0.03, 12);
    expect(degreesOfFreedom).toBe(2);
    expect(standardUncertainty).toBeCloseTo(Math.sqrt(0.01 ** 2 / 12 + 0.03 ** 2 / 3), 12);
  });

  test("taken once, is as sure as one reading", () => {
    expect(repeatedReading(dial, [0.13]).standardUncertainty).toBeCloseTo(readingUncertainty(dial, value(0.13)), 15);
  });

  test("repeats that agree better than the feel do not pretend to more than the feel allows", () => {
    const { standardUncertainty } = repeatedReading(dial, [0.1, 0.1, 0.1, 0.1]);
    expect(standardUncertainty).toBeCloseTo(Math.sqrt(0.01 ** 2 / 12 + 0.01 ** 2 / 4), 15);
  });

  test("is never surer than the step of the display and the rock let it be, however often it is taken", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 1, maxLength: 50 }),
        sizes,
        (readings, rock) => {
          const { standardUncertainty } = repeatedReading(dial, readings, { rock });
          expect(standardUncertainty).toBeGreaterThanOrEqual(Math.sqrt(0.01 ** 2 / 12 + rock ** 2) * (1 - 1e-12));
        },
      ),
      { seed: 20250121 },
    );
  });

  test("its order does not matter", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -500, max: 500 }), { minLength: 2, maxLength: 9 }), (hundredths) => {
        const readings = hundredths.map((count) => count / 100);
        const forwards = repeatedReading(dial, readings);
        const backwards = repeatedReading(dial, [...readings].reverse());
        expect(backwards.standardUncertainty).toBeCloseTo(forwards.standardUncertainty, 10);
        expect(backwards.mean).toBeCloseTo(forwards.mean, 10);
      }),
      { seed: 20250122 },
    );
  });
});

test("the first place may come back twice the feel away, and never less than one step", () => {
  expect(limitOfReturn(dial)).toBe(0.02);
  expect(limitOfReturn({ ...dial, settingMm: 0.002 })).toBe(0.01);
});
