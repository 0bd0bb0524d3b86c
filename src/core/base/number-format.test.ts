import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  formatChance,
  formatChanceInWords,
  formatLength,
  formatNumber,
  formatTrimmed,
  showUncertainty,
  showValue,
  stepForUncertainty,
} from "./number-format.ts";
import { unitFromCore } from "./units.ts";

const signedLength = { quantity: "length", sign: "always" } as const;

// From what no instrument here resolves to a machine's whole travel, evenly over the powers of ten.
const uncertainties = fc.double({ min: -4, max: 3, noNaN: true }).map((exponent) => 10 ** exponent);
const values = fc.double({ min: -2000, max: 2000, noNaN: true });

const numberShown = (text: string) => Number(text.replace("−", "-"));

describe("a value with its uncertainty", () => {
  test.each([
    [0.183, 0.055, "+0.18 ± 0.06 mm"],
    [-0.183, 0.055, "−0.18 ± 0.06 mm"],
    [0.183, 0.06, "+0.18 ± 0.06 mm"],
    [0.183, 0.0601, "+0.20 ± 0.10 mm"],
    [0.183, 0.15, "+0.20 ± 0.15 mm"],
    [0.183, 0.16, "+0.2 ± 0.2 mm"],
    [0.183, 0.3, "+0.2 ± 0.3 mm"],
    [0.0049, 0.003, "0.00 ± 0.01 mm"],
    [-0.0049, 0.003, "0.00 ± 0.01 mm"],
    [1.35, 1, "+1.5 ± 1.0 mm"],
    [-12.3, 20, "−10 ± 20 mm"],
    [0.7, 0, "+0.70 ± 0.00 mm"],
    [1234.5, 400, "+1200 ± 400 mm"],
  ])("%f with U = %f reads %s", (value, expandedUncertainty, text) => {
    expect(showValue(value, expandedUncertainty, signedLength).whole).toBe(text);
  });

  test("an unsigned quantity has no plus, other quantities have their own units", () => {
    expect(showValue(0.183, 0.055, { quantity: "length" }).whole).toBe("0.18 ± 0.06 mm");
    expect(showValue(-1.234, 0.3, { quantity: "slope", sign: "always" }).whole).toBe("−1.2 ± 0.3 mm/m");
    expect(showValue(32.4, 4, { quantity: "force" }).whole).toBe("32 ± 4 N");
    expect(showValue(60.3, 0.6, { quantity: "frequency" }).whole).toBe("60.4 ± 0.6 Hz");
  });

  test("somebody who works in inches reads thousandths, and inches where a length is long", () => {
    const style = { quantity: "length", sign: "always", system: "inch" } as const;
    expect(showValue(0.183, 0.055, style).whole).toBe("+7 ± 3 thou");
    expect(showValue(-0.02, 0.01, style).whole).toBe("−1.0 ± 0.5 thou");
    expect(showValue(600.1, 0.1, { ...style, sign: "when negative" }).whole).toBe("23.626 ± 0.004 in");
    expect(showValue(1, 0.3, { quantity: "slope", sign: "always", system: "inch" }).whole).toBe("+12 ± 4 thou/ft");
    expect(showValue(32.4, 4, { quantity: "force", system: "inch" }).whole).toBe("7.5 ± 1.0 lbf");
  });

  test("the step is 1, 2 or 5 of a power of ten, at least a third of U, and the next smaller one is less", () => {
    fc.assert(
      fc.property(uncertainties, (expandedUncertainty) => {
        const { size, decimals } = stepForUncertainty(expandedUncertainty);
        const mantissa = Number(size.toExponential().split("e")[0]);
        expect([1, 2, 5]).toContain(mantissa);
        expect(Number(size.toFixed(decimals))).toBe(size);
        expect(size).toBeGreaterThanOrEqual((expandedUncertainty / 3) * (1 - 1e-8));
        const smaller = mantissa === 5 ? size / 2.5 : size / 2;
        if (size > 0.01) expect(smaller).toBeLessThan(expandedUncertainty / 3);
        else expect(size).toBe(0.01);
      }),
      { seed: 20250108, numRuns: 1000 },
    );
  });

  test("what is shown lies within half a step of the value, and the shown U is never less than U", () => {
    fc.assert(
      fc.property(
        values,
        uncertainties,
        fc.constantFrom("metric" as const, "inch" as const),
        (value, expanded, system) => {
          const shown = showValue(value, expanded, { quantity: "length", system });
          const { size } = stepForUncertainty(
            unitFromCore(expanded, shown.unit),
            { mm: 0.01, thou: 0.5, in: 0.0005 }[shown.unit as "mm"],
          );
          expect(Math.abs(numberShown(shown.value) - unitFromCore(value, shown.unit))).toBeLessThanOrEqual(
            size / 2 + 1e-6 * size,
          );
          const shownU = numberShown(shown.uncertainty);
          expect(shownU).toBeGreaterThanOrEqual(unitFromCore(expanded, shown.unit) - 1e-6 * size);
          expect(shownU).toBeLessThan(unitFromCore(expanded, shown.unit) + size * (1 + 1e-6));
        },
      ),
      { seed: 20250109, numRuns: 1000 },
    );
  });

  test("value and U carry the same number of decimals", () => {
    fc.assert(
      fc.property(values, uncertainties, (value, expanded) => {
        const shown = showValue(value, expanded, signedLength);
        const decimals = (text: string) => text.split(".")[1]?.length ?? 0;
        expect(decimals(shown.value)).toBe(decimals(shown.uncertainty));
      }),
      { seed: 20250110 },
    );
  });

  test("a value and its opposite show the same digits", () => {
    fc.assert(
      fc.property(values, uncertainties, (value, expanded) => {
        const bare = (text: string) => text.replace(/^[+−]/, "");
        expect(bare(showValue(-value, expanded, signedLength).whole)).toBe(
          bare(showValue(value, expanded, signedLength).whole),
        );
      }),
      { seed: 20250111 },
    );
  });
});

describe("plain numbers", () => {
  test("the minus is a true minus, and nothing has no sign", () => {
    expect(formatNumber(-0.35, 2)).toBe("−0.35");
    expect(formatNumber(-0.001, 2)).toBe("0.00");
    expect(formatNumber(0.001, 2, "always")).toBe("0.00");
    expect(formatNumber(0.36, 1, "always")).toBe("+0.4");
  });

  test("a dimension has no idle zeros", () => {
    expect(formatLength(600)).toBe("600 mm");
    expect(formatLength(105.5)).toBe("105.5 mm");
    expect(formatLength(-90)).toBe("−90 mm");
    expect(formatLength(600, "inch")).toBe("23.622 in");
    expect(formatLength(25.4, "inch")).toBe("1 in");
    expect(formatTrimmed(100, 0)).toBe("100");
  });
});

describe("chances", () => {
  test.each([
    [0, "under 1 %"],
    [0.0099, "under 1 %"],
    [0.01, "1 %"],
    [0.05, "5 %"],
    [0.0501, "6 %"],
    [0.29, "29 %"],
    [0.57, "57 %"],
    [0.634, "63 %"],
    [0.9499, "94 %"],
    [0.95, "95 %"],
    [0.99, "99 %"],
    [0.9901, "over 99 %"],
    [1, "over 99 %"],
  ])("%f is %s", (probability, text) => {
    expect(formatChance(probability)).toBe(text);
  });

  test("in words it is the same count", () => {
    expect(formatChanceInWords(0.63)).toBe("63 chances in 100");
    expect(formatChanceInWords(0.01)).toBe("1 chance in 100");
    expect(formatChanceInWords(0.001)).toBe("under 1 chance in 100");
  });

  test("a chance is never shown as none or certain, nor on the other side of a verdict's limit", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (probability) => {
        const text = formatChance(probability);
        const count = Number(/\d+/.exec(text)![0]);
        expect(count).toBeGreaterThanOrEqual(1);
        expect(count).toBeLessThanOrEqual(99);
        if (Math.abs(probability - 0.95) > 1e-10) expect(count >= 95).toBe(probability >= 0.95);
        if (Math.abs(probability - 0.05) > 1e-10) expect(count <= 5).toBe(probability <= 0.05);
      }),
      { seed: 20250112, numRuns: 2000 },
    );
  });
});

test("shows an expanded uncertainty by itself as it would stand behind its value", () => {
  for (const [u, quantity] of [
    [4.81, "slope"],
    [0.65, "slope"],
    [0.068, "length"],
    [0, "length"],
  ] as const)
    expect(showUncertainty(u, quantity)).toBe(showValue(1.234, u, { quantity }).uncertainty);
  expect(showUncertainty(4.81, "slope")).toBe("6");
});
