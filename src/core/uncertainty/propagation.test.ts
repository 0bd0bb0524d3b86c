import { describe, expect, test } from "vitest";
import { createRandom } from "../numerics/random.ts";
import { combinedStandardUncertainty, coverageFactor, effectiveDegreesOfFreedom } from "./coverage.ts";
import { simulate } from "./monte-carlo.ts";
import { propagate, propagateCovariance } from "./propagation.ts";
import { correlationOf, evaluateSeries, evaluateTogether, poolSeries } from "./type-a.ts";

describe("readings of one thing", () => {
  test("mean, standard deviation and uncertainty of the mean of a series", () => {
    const series = evaluateSeries([2, 4, 4, 4, 5, 5, 7, 9]);
    expect(series).toMatchObject({ count: 8, mean: 5, degreesOfFreedom: 7 });
    expect(series.standardDeviation).toBeCloseTo(Math.sqrt(32 / 7), 14);
    expect(series.standardUncertainty).toBeCloseTo(Math.sqrt(4 / 7), 14);
    expect(evaluateSeries([3]).standardDeviation).toBe(0);
  });

  test("a large common value costs no digits", () => {
    const series = evaluateSeries([1e9 + 0.1, 1e9 + 0.2, 1e9 + 0.3].map((value) => value));
    expect(series.standardDeviation).toBeCloseTo(0.1, 6);
  });

  test("pooled series scatter about their own means", () => {
    const pooled = poolSeries([[1, 3], [10, 10, 10], [], [7]]);
    expect(pooled.degreesOfFreedom).toBe(3);
    expect(pooled.standardDeviation).toBeCloseTo(Math.sqrt(2 / 3), 14);
  });

  test("quantities read together show what they have in common", () => {
    const { means, covariance } = evaluateTogether([
      [1, 2, 3],
      [2, 4, 6],
      [5, 5, 5],
    ]);
    expect(means).toEqual([2, 4, 5]);
    expect(correlationOf(covariance, 3, 0, 1)).toBeCloseTo(1, 14);
    expect(correlationOf(covariance, 3, 0, 2)).toBe(0);
    expect(covariance[0]).toBeCloseTo(1 / 3, 14);
  });
});

describe("propagation", () => {
  test("a sum of independent inputs adds in quadrature; fully correlated inputs add", () => {
    const inputs = [
      { value: 1, standardUncertainty: 3 },
      { value: 2, standardUncertainty: 4 },
    ];
    const sum = (x: readonly number[]) => x[0]! + x[1]!;
    expect(propagate(sum, inputs).standardUncertainty).toBeCloseTo(5, 10);
    expect(propagate(sum, inputs, { correlation: () => 1 }).standardUncertainty).toBeCloseTo(7, 10);
    expect(propagate(sum, inputs, { correlation: () => -1 }).standardUncertainty).toBeCloseTo(1, 10);
    expect(propagate(sum, inputs, { correlation: () => 0 }).degreesOfFreedom).toBeUndefined();
    expect(combinedStandardUncertainty([3, 4])).toBe(5);
  });

  test("sensitivities are the derivatives, for a certain input as well", () => {
    const result = propagate(
      (x) => x[0]! ** 3 * Math.exp(x[1]!),
      [
        { value: 2, standardUncertainty: 0.01 },
        { value: 0.5, standardUncertainty: 0 },
      ],
    );
    expect(result.sensitivities[0]! / (12 * Math.exp(0.5))).toBeCloseTo(1, 10);
    expect(result.sensitivities[1]! / (8 * Math.exp(0.5))).toBeCloseTo(1, 10);
    expect(result.contributions[1]).toBe(0);
  });

  test("second-order terms give the variance of a product of two inputs about 0, and of a square", () => {
    const inputs = [
      { value: 0, standardUncertainty: 2 },
      { value: 0, standardUncertainty: 3 },
    ];
    expect(propagate((x) => x[0]! * x[1]!, inputs, { secondOrder: true }).standardUncertainty).toBeCloseTo(6, 10);
    expect(propagate((x) => x[0]! ** 2, inputs, { secondOrder: true }).standardUncertainty).toBeCloseTo(
      Math.SQRT2 * 4,
      10,
    );
  });

  test("the third derivative enters as well: x + x³ about 0 to second order", () => {
    // f_x = 1, f_xxx = 6: u² + 1·6·u²·u².
    const result = propagate((x) => x[0]! + x[0]! ** 3, [{ value: 0, standardUncertainty: 0.1 }], {
      secondOrder: true,
    });
    expect(result.standardUncertainty ** 2).toBeCloseTo(0.01 + 6e-4, 12);
  });

  test("the covariance of linear results is J·U·Jᵀ", () => {
    const covariance = Float64Array.from([4, 1, 1, 9]);
    const result = propagateCovariance([(x) => x[0]! + x[1]!, (x) => 2 * x[0]! - x[1]!], [5, 7], covariance);
    expect(result.values).toEqual([12, 3]);
    // Off the diagonal: 2·4 − 9 from the variances, (2 − 1)·1 from the covariance.
    [15, 0, 0, 21].forEach((value, i) => {
      expect(result.covariance[i]).toBeCloseTo(value, 9);
    });
  });
});

describe("coverage", () => {
  test("equal contributions add their degrees of freedom, and one that is known well adds none", () => {
    const part = { standardUncertainty: 2, degreesOfFreedom: 5 };
    expect(effectiveDegreesOfFreedom([part, part])).toBeCloseTo(10, 12);
    const known = { standardUncertainty: 2, degreesOfFreedom: Number.POSITIVE_INFINITY };
    expect(effectiveDegreesOfFreedom([part, known])).toBeCloseTo(20, 12);
    expect(effectiveDegreesOfFreedom([known, known])).toBe(Number.POSITIVE_INFINITY);
    expect(effectiveDegreesOfFreedom([])).toBe(Number.POSITIVE_INFINITY);
  });

  test("the coverage factor of 95.45 % tends to 2", () => {
    expect(coverageFactor(0.954499736, Number.POSITIVE_INFINITY)).toBeCloseTo(2, 7);
    expect(coverageFactor(0.95, 5)).toBeGreaterThan(2.5);
  });

  test("first-order law and Monte Carlo agree on a nearly linear model", () => {
    const model = (x: readonly number[]) => x[0]! * x[1]! + x[2]!;
    const law = propagate(model, [
      { value: 10, standardUncertainty: 0.01 },
      { value: 3, standardUncertainty: 0.02 },
      { value: 1, standardUncertainty: 0.05 },
    ]);
    const trials = 100_000;
    const simulation = simulate(
      model,
      [
        { kind: "normal", mean: 10, standardUncertainty: 0.01 },
        { kind: "normal", mean: 3, standardUncertainty: 0.02 },
        { kind: "normal", mean: 1, standardUncertainty: 0.05 },
      ],
      trials,
      createRandom(1),
    );
    // Five standard errors of a standard deviation, fixed seed.
    expect(Math.abs(simulation.standardUncertainty / law.standardUncertainty - 1)).toBeLessThan(
      5 / Math.sqrt(2 * trials),
    );
  });
});
