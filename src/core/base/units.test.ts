import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { coreFromUnit, coreUnitOf, unitFromCore, unitFromSpelling, unitIds, unitOf, unitsOfQuantity } from "./units.ts";

describe("units", () => {
  test("each factor is the exact one", () => {
    const one = Object.fromEntries(unitIds.map((id) => [id, coreFromUnit(1, id)]));
    expect(one).toMatchObject({
      mm: 1,
      um: 0.001,
      cm: 10,
      m: 1000,
      in: 25.4,
      thou: 0.0254,
      ft: 304.8,
      "mm/m": 1,
      "um/m": 0.001,
      "thou/in": 1,
      N: 1,
      kgf: 9.80665,
      gf: 0.00980665,
      lbf: 4.4482216152605,
      Hz: 1,
      kHz: 1000,
      degC: 1,
      percent: 0.01,
    });
    expect(one["in/ft"]).toBeCloseTo(1000 / 12, 12);
    expect(one["thou/ft"]).toBeCloseTo(1 / 12, 12);
    expect(one.deg).toBeCloseTo((1000 * Math.PI) / 180, 12);
    expect(60 * one.arcmin!).toBeCloseTo(one.deg!, 12);
    expect(60 * one.arcsec!).toBeCloseTo(one.arcmin!, 12);
  });

  test("thirteen thousandths of an inch are 0.3302 mm to the last digit", () => {
    expect(coreFromUnit(13, "thou")).toBe(0.3302);
  });

  test("a number taken to a unit and back is the same number", () => {
    fc.assert(
      // Nothing a person reads at a small machine lies beyond ten kilometres or below a nanometre.
      fc.property(
        fc.constantFrom(...unitIds),
        fc.double({ min: -1e7, max: 1e7, noNaN: true }).filter((value) => value === 0 || Math.abs(value) > 1e-6),
        (id, value) => {
          const back = unitFromCore(coreFromUnit(value, id), id);
          return Math.abs(back - value) <= 4e-16 * Math.abs(value) * 4;
        },
      ),
      { seed: 20250101, numRuns: 500 },
    );
  });

  test("every spelling finds its own unit when that unit's quantity is asked for", () => {
    for (const id of unitIds) {
      const { quantity, spellings } = unitOf(id);
      for (const spelling of spellings) expect(unitFromSpelling(spelling, quantity)?.id).toBe(id);
    }
  });

  test("the mark for inches is seconds of arc where a slope is asked for", () => {
    expect(unitFromSpelling("″", "length")?.id).toBe("in");
    expect(unitFromSpelling("″", "slope")?.id).toBe("arcsec");
    expect(unitFromSpelling("'", "length")?.id).toBe("ft");
    expect(unitFromSpelling("'", "slope")?.id).toBe("arcmin");
  });

  test("a unit of another quantity is found, so that it can be named", () => {
    expect(unitFromSpelling("mm/m", "length")?.quantity).toBe("slope");
    expect(unitFromSpelling("furlong", "length")).toBeUndefined();
  });

  test("the core's own unit of every quantity has the factor one", () => {
    for (const id of Object.values(coreUnitOf)) expect(coreFromUnit(1, id)).toBe(1);
    expect(unitsOfQuantity("frequency").map(({ id }) => id)).toEqual(["Hz", "kHz"]);
  });
});
