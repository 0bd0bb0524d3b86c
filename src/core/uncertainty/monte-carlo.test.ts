import { describe, expect, test } from "vitest";
import { createRandom } from "../numerics/random.ts";
import {
  drawFrom,
  type InputDistribution,
  meanOfDistribution,
  standardUncertaintyOfDistribution,
} from "./input-distribution.ts";
import {
  correlatedNormals,
  shortestCoverageInterval,
  simulate,
  simulateDraws,
  symmetricCoverageInterval,
} from "./monte-carlo.ts";

const distributions: readonly InputDistribution[] = [
  { kind: "fixed", value: 7 },
  { kind: "normal", mean: 3, standardUncertainty: 0.2 },
  { kind: "rectangular", low: -1, high: 3 },
  { kind: "triangular", low: -1, high: 3 },
  { kind: "arcsine", low: -0.5, high: 0.7 },
  { kind: "curvilinear-trapezoid", low: -2, high: 2, limitHalfWidth: 1 },
  { kind: "student", mean: 1, scale: 2, degreesOfFreedom: 12 },
  { kind: "student", mean: 1, scale: 2, degreesOfFreedom: 7.5 },
];

describe("Monte Carlo", () => {
  test.each(distributions)("draws from $kind have the mean and the standard uncertainty stated", (distribution) => {
    const trials = 200_000;
    const simulation = simulate((x) => x[0]!, [distribution], trials, createRandom(5));
    const u = standardUncertaintyOfDistribution(distribution);
    // Five standard errors; the factor 2 makes room for the heavy tails of Student's t.
    expect(Math.abs(simulation.mean - meanOfDistribution(distribution))).toBeLessThanOrEqual(
      (5 * u) / Math.sqrt(trials),
    );
    expect(Math.abs(simulation.standardUncertainty - u)).toBeLessThanOrEqual((2 * 5 * u) / Math.sqrt(2 * trials));
  });

  test("a Student distribution with few degrees of freedom has no finite standard uncertainty", () => {
    const distribution = { kind: "student", mean: 0, scale: 1, degreesOfFreedom: 1 } as const;
    expect(standardUncertaintyOfDistribution(distribution)).toBe(Number.POSITIVE_INFINITY);
    const random = createRandom(2);
    // The quartiles of the Cauchy distribution are ±1.
    const share = Array.from({ length: 20_000 }, () => drawFrom(distribution, random)).filter((x) => Math.abs(x) < 1);
    expect(Math.abs(share.length / 20_000 - 0.5)).toBeLessThan(5 * Math.sqrt(0.25 / 20_000));
  });

  test("the same seed gives the same result", () => {
    const run = () =>
      simulate((x) => x[0]!, [{ kind: "normal", mean: 0, standardUncertainty: 1 }], 100, createRandom(4));
    expect(run()).toEqual(run());
  });

  test("coverage intervals of evenly spread results", () => {
    let next = 0;
    const simulation = simulateDraws(() => next++, 1001);
    expect(symmetricCoverageInterval(simulation, 0.9)).toEqual({ low: 50, high: 951 });
    const shortest = shortestCoverageInterval(simulation, 0.9);
    expect(shortest.high - shortest.low).toBe(901);
  });

  test("the shortest interval leaves the thin tail out", () => {
    const random = createRandom(3);
    const simulation = simulateDraws(() => -Math.log(1 - random.uniform()), 100_000);
    const shortest = shortestCoverageInterval(simulation, 0.95);
    const symmetric = symmetricCoverageInterval(simulation, 0.95);
    expect(shortest.low).toBeLessThan(0.01);
    expect(shortest.high).toBeCloseTo(-Math.log(0.05), 1);
    expect(symmetric.low).toBeCloseTo(-Math.log(0.975), 2);
    expect(symmetric.high).toBeCloseTo(-Math.log(0.025), 1);
  });

  test("normals drawn together have the covariance asked for, a direction without variance too", () => {
    const covariance = Float64Array.from([4, 2.4, 0, 2.4, 1.44, 0, 0, 0, 9]);
    const draw = correlatedNormals([1, 2, 3], covariance, createRandom(6));
    let product = 0;
    const count = 50_000;
    for (let i = 0; i < count; i++) {
      const [a, b, c] = draw() as [number, number, number];
      expect(b - 2).toBeCloseTo(0.6 * (a - 1), 12);
      product += (a - 1) * (c - 3);
    }
    expect(Math.abs(product / count)).toBeLessThan((5 * 6) / Math.sqrt(count));
  });
});
