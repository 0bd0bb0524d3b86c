import { describe, expect, test } from "vitest";
import {
  chiSquareCdf,
  chiSquareQuantile,
  logNormalCdf,
  normalCdf,
  normalHazardRatio,
  normalPdf,
  normalQuantile,
  normalQuantileOfLog,
  studentQuantile,
} from "./distributions.ts";

describe("distributions", () => {
  test("quantile and probability undo each other", () => {
    for (const p of [1e-6, 0.01, 0.3, 0.5, 0.9, 0.9999]) {
      expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 13);
      expect(chiSquareCdf(chiSquareQuantile(p, 3), 3)).toBeCloseTo(p, 11);
    }
  });

  test("a quantile is found again in the far tail, by its logarithm where a double no longer holds it", () => {
    for (const z of [-4.5, -5, -7, -8, -9, -12, -20, -37]) {
      expect(normalQuantile(normalCdf(z)) / z).toBeCloseTo(1, 11);
    }
    for (const z of [-1.1, -3, -8, -40, -1000]) expect(normalQuantileOfLog(logNormalCdf(z)) / z).toBeCloseTo(1, 12);
  });

  test("Student's t with one degree of freedom is the Cauchy distribution, and with none to lack it is the normal", () => {
    expect(studentQuantile(0.75, 1)).toBeCloseTo(1, 12);
    expect(studentQuantile(0.9, Number.POSITIVE_INFINITY)).toBe(normalQuantile(0.9));
    expect(studentQuantile(0.9, 1e9)).toBeCloseTo(normalQuantile(0.9), 7);
  });

  test("a χ² probability at or below 0 is 0", () => {
    expect(chiSquareCdf(0, 4)).toBe(0);
    expect(chiSquareCdf(-1, 4)).toBe(0);
  });

  test("the hazard ratio joins its two branches and follows its asymptote", () => {
    expect(normalHazardRatio(0)).toBeCloseTo(2 * normalPdf(0), 15);
    expect(normalHazardRatio(-5 + 1e-9) / normalHazardRatio(-5 - 1e-9)).toBeCloseTo(1, 8);
    for (const z of [-5, -5.5, -8, -20, -30]) {
      expect(normalHazardRatio(z) / (normalPdf(z) / normalCdf(z))).toBeCloseTo(1, 11);
    }
    // x + 1/x − 2/x³ for large x.
    expect(normalHazardRatio(-1000)).toBeCloseTo(1000 + 1e-3 - 2e-9, 10);
    expect(normalHazardRatio(40)).toBe(normalPdf(40));
  });

  test("ln Φ has the hazard ratio as its slope, far out too", () => {
    for (const z of [-200, -40, -6, -4, 0, 2]) {
      const step = 1e-4;
      const slope = (logNormalCdf(z + step) - logNormalCdf(z - step)) / (2 * step);
      expect(slope / normalHazardRatio(z)).toBeCloseTo(1, 6);
    }
  });
});
