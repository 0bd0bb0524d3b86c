import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalPdf } from "./distributions.ts";
import { chanceAtMost, normalAboveNothing, placeAboveNothing } from "./normal-above-nothing.ts";
import { integrate } from "./quadrature.ts";

// From far below nothing, where a tail is left, to far above, where nothing is cut off.
const means = [-40, -8, -3, -1, -0.2, 0, 0.3, 1, 2.5, 6, 12];
const sd = 0.7;

describe("a normal that is cut off at nothing", () => {
  test.each(means)("with the mean at %d standard deviations has the mean and spread of its density", (t) => {
    const mean = t * sd;
    // Relative to the density at nothing or at the top, so that a far tail is no 0/0.
    const top = Math.max(0, mean);
    const density = (x: number) => Math.exp(((top - mean) ** 2 - (x - mean) ** 2) / (2 * sd * sd));
    const from = Math.max(0, mean - 9 * sd);
    const to = t < -2 ? (40 * sd) / -t : Math.max(0, mean) + 9 * sd;
    const over = (f: (x: number) => number) => integrate((x) => f(x) * density(x), from, to, 4000);
    const whole = over(() => 1);
    const first = over((x) => x) / whole;
    const spread = Math.sqrt(over((x) => (x - first) ** 2) / whole);
    const found = normalAboveNothing(mean, sd);
    expect(found.value / first).toBeCloseTo(1, 6);
    // Far below nothing 1 − tλ − λ² is a small difference of large numbers.
    expect(found.sd / spread).toBeCloseTo(1, t < -20 ? 3 : 6);
    const limit = first * 1.3;
    const below = integrate(density, from, limit, 4000) / whole;
    expect(chanceAtMost(mean, sd, limit)).toBeCloseTo(below, 7);
  });

  test.each(means)("with the mean at %d standard deviations has each place where the chance says it is", (t) => {
    for (const share of [0.001, 0.025, 0.5, 0.9, 0.975]) {
      const place = placeAboveNothing(t * sd, sd, share);
      expect(chanceAtMost(t * sd, sd, place)).toBeCloseTo(1 - share, 6);
    }
  });

  test("never lies below nothing, and its places rise as less is left above them", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2000, max: 20, noNaN: true }),
        fc.double({ min: 1e-6, max: 10, noNaN: true }),
        fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }),
        (t, spread, share) => {
          const place = placeAboveNothing(t * spread, spread, share);
          expect(place).toBeGreaterThanOrEqual(0);
          expect(placeAboveNothing(t * spread, spread, share / 2)).toBeGreaterThanOrEqual(place);
        },
      ),
      { seed: 31 },
    );
  });

  test("that is known exactly is where it is, or nothing", () => {
    expect(normalAboveNothing(-1, 0)).toEqual({ value: 0, sd: 0, low: 0, high: 0 });
    expect(normalAboveNothing(0.3, 0)).toEqual({ value: 0.3, sd: 0, low: 0.3, high: 0.3 });
    expect([chanceAtMost(0.3, 0, 0.3), chanceAtMost(0.3, 0, 0.2), chanceAtMost(-1, 0, 0)]).toEqual([1, 0, 1]);
    expect(chanceAtMost(0.2, 0.1, 0)).toBe(0);
  });

  test("is the half-normal when its mean is nothing", () => {
    const { value, sd: spread } = normalAboveNothing(0, 1);
    expect(value).toBeCloseTo(2 * normalPdf(0), 12);
    expect(spread).toBeCloseTo(Math.sqrt(1 - 2 / Math.PI), 12);
  });
});
