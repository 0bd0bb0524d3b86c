import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { LengthFigures } from "./instrument.ts";
import { lastingError, maxPermissibleErrorAt } from "./lasting-error.ts";

const rootThree = Math.sqrt(3);

const dial: LengthFigures = {
  measures: "length",
  rangeMm: { from: -10, to: 10 },
  resolutionMm: 0.01,
  settingMm: 0.01,
  maxPermissibleError: { constantMm: 0.02 },
  smallRange: { withinMm: 0.1, maxPermissibleErrorMm: 0.004 },
  lasts: "offset",
};
const calipers: LengthFigures = {
  measures: "length",
  rangeMm: { from: 0, to: 150 },
  settingMm: 0.03,
  maxPermissibleError: { constantMm: 0.03 },
  againstSameSize: { maxPermissibleErrorMm: 0.01 },
  lasts: "scale",
};
const tape: LengthFigures = {
  measures: "length",
  rangeMm: { from: 0, to: 5000 },
  settingMm: 0.3,
  maxPermissibleError: { constantMm: 0.3, perWholeMetreMm: 0.2 },
  lasts: "scale",
};
const rule: LengthFigures = {
  measures: "length",
  rangeMm: { from: 0, to: 1000 },
  settingMm: 0.05,
  maxPermissibleError: { constantMm: 0.15 },
  scaleStandardUncertaintyMmPerM: 0.2,
  lasts: "scale",
};

describe("what of an instrument's error lasts", () => {
  test("a dial that reads a place carries one offset, its limit over root three", () => {
    expect(lastingError(dial, { cancels: false })).toEqual({ form: "offset", sdMm: 0.02 / rootThree });
  });

  test("a run with a zero, or a difference of two readings of one tool, has none", () => {
    for (const instrument of [dial, calipers, tape, rule]) {
      expect(lastingError(instrument, { cancels: true })).toEqual({ form: "none" });
    }
  });

  test("over a small span the small limit stands for the large one, and just beyond it no longer", () => {
    expect(lastingError(dial, { cancels: false, spanMm: 0.1 })).toEqual({ form: "offset", sdMm: 0.004 / rootThree });
    expect(lastingError(dial, { cancels: false, spanMm: 0.11 })).toEqual({ form: "offset", sdMm: 0.02 / rootThree });
  });

  test("calipers and tapes carry a scale that reaches the limit at the end of their range", () => {
    expect(lastingError(calipers, { cancels: false })).toEqual({ form: "scale", sd: 0.03 / rootThree / 150 });
    expect(lastingError(tape, { cancels: false })).toEqual({ form: "scale", sd: 1.3 / rootThree / 5000 });
  });

  test("calipers set against a block of the same size keep only what the comparison leaves", () => {
    expect(lastingError(calipers, { cancels: false, againstSameSize: true })).toEqual({
      form: "offset",
      sdMm: 0.01 / rootThree,
    });
    expect(lastingError(tape, { cancels: false, againstSameSize: true })).toMatchObject({ form: "scale" });
  });

  test("the scale of a rule stands for its limit", () => {
    expect(lastingError(rule, { cancels: false })).toEqual({ form: "scale", sd: 0.0002 });
  });

  test("a pull and a note are out in proportion, a level and a look carry nothing along", () => {
    expect(lastingError({ measures: "force", maxPermissibleErrorShare: 0.05 }, { cancels: false })).toEqual({
      form: "scale",
      sd: 0.05 / rootThree,
    });
    expect(lastingError({ measures: "frequency", maxPermissibleErrorShare: 0.01 }, { cancels: false })).toEqual({
      form: "scale",
      sd: 0.01 / rootThree,
    });
    expect(lastingError({ measures: "slope", settingMmPerM: 0.3 }, { cancels: false })).toEqual({ form: "none" });
    expect(lastingError({ measures: "eye" }, { cancels: false })).toEqual({ form: "none" });
  });

  test("at any length in its range, a scale stays within the limit that is permitted at the end", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5000, noNaN: true }), (lengthMm) => {
        const error = lastingError(tape, { cancels: false });
        if (error.form !== "scale") throw new Error(error.form);
        expect(error.sd * rootThree * lengthMm).toBeLessThanOrEqual(maxPermissibleErrorAt(tape, 5000)! * (1 + 1e-12));
      }),
      { seed: 20250123 },
    );
  });
});

describe("the permissible error at a length", () => {
  test("counts metres upwards, and a hair over a metre is that metre", () => {
    expect(maxPermissibleErrorAt(tape, 0)).toBeCloseTo(0.3, 12);
    expect(maxPermissibleErrorAt(tape, 500)).toBeCloseTo(0.5, 12);
    expect(maxPermissibleErrorAt(tape, 1000)).toBeCloseTo(0.5, 12);
    expect(maxPermissibleErrorAt(tape, 1000.0000001)).toBeCloseTo(0.5, 12);
    expect(maxPermissibleErrorAt(tape, 1001)).toBeCloseTo(0.7, 12);
    expect(maxPermissibleErrorAt(tape, 5000)).toBeCloseTo(1.3, 12);
  });

  test("is not known where none is stated", () => {
    expect(maxPermissibleErrorAt({ measures: "length", settingMm: 0.12, lasts: "none" }, 10)).toBeNull();
  });
});
