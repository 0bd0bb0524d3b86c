import { describe, expect, test } from "vitest";
import { createRandom } from "../numerics/random.ts";
import { leastSquaresCircle, linearisedCircle } from "./circle-fit.ts";
import { minimumZoneCircle } from "./minimum-zone-circle.ts";

/** Points on a circle of radius 60 about (300, −120) with normal deviations, all round or on a part of it. */
function roundPath(seed: number, count: number, noise: number, turn = 2 * Math.PI) {
  const random = createRandom(seed);
  const angles = Array.from({ length: count }, (_, i) => (turn * i) / count);
  const radii = angles.map(() => 60 + noise * random.normal());
  return {
    x: angles.map((angle, i) => 300 + radii[i]! * Math.cos(angle)),
    y: angles.map((angle, i) => -120 + radii[i]! * Math.sin(angle)),
  };
}

const fits = [linearisedCircle, leastSquaresCircle, minimumZoneCircle];

describe("circles", () => {
  test("every fit finds a perfect circle, from all round and from a quarter of it", () => {
    for (const turn of [2 * Math.PI, Math.PI / 2]) {
      const { x, y } = roundPath(1, 12, 0, turn);
      for (const settle of fits) {
        const circle = settle(x, y)!;
        expect(circle.centreX).toBeCloseTo(300, 9);
        expect(circle.centreY).toBeCloseTo(-120, 9);
        expect(circle.radius).toBeCloseTo(60, 9);
        expect(circle.width).toBeLessThan(1e-9);
      }
    }
  });

  test("the geometric circle has the least sum of squares in its neighbourhood", () => {
    const { x, y } = roundPath(2, 15, 0.05);
    const circle = leastSquaresCircle(x, y)!;
    const sum = (cx: number, cy: number, r: number) =>
      x.reduce((total, xi, i) => total + (Math.hypot(xi - cx, y[i]! - cy) - r) ** 2, 0);
    const least = sum(circle.centreX, circle.centreY, circle.radius);
    for (const [a, b, c] of [
      [1, 0, 0],
      [-1, 0, 0],
      [0, 1, 0],
      [0, -1, 0],
      [0, 0, 1],
      [0, 0, -1],
    ] as const) {
      const step = 1e-4;
      expect(sum(circle.centreX + a * step, circle.centreY + b * step, circle.radius + c * step)).toBeGreaterThan(
        least,
      );
    }
  });

  test("the minimum zone is narrower than about any other centre tried", () => {
    for (const count of [12, 30, 72]) {
      const { x, y } = roundPath(count, count, 0.05);
      const zone = minimumZoneCircle(x, y)!;
      expect(zone.width).toBeLessThanOrEqual(leastSquaresCircle(x, y)!.width);
      const random = createRandom(99);
      for (let trial = 0; trial < 3000; trial++) {
        const reach = 10 ** (-4 * random.uniform() - 1);
        const cx = zone.centreX + reach * random.normal();
        const cy = zone.centreY + reach * random.normal();
        const distances = x.map((xi, i) => Math.hypot(xi - cx, y[i]! - cy));
        expect(Math.max(...distances) - Math.min(...distances)).toBeGreaterThanOrEqual(zone.width - 1e-12);
      }
    }
  });

  test("crossings of bisectors and linear steps give the same minimum zone for a path all round", () => {
    for (let seed = 0; seed < 20; seed++) {
      const { x, y } = roundPath(seed, 20, 0.05);
      const zone = minimumZoneCircle(x, y)!;
      // The same points three times over are too many for the crossings and go the other way.
      const repeated = minimumZoneCircle([...x, ...x, ...x], [...y, ...y, ...y])!;
      expect(repeated.width).toBeCloseTo(zone.width, 11);
    }
  });

  test("two points, or points on one line, settle no circle", () => {
    for (const settle of fits) {
      expect(settle([0, 1], [0, 1])).toBeUndefined();
      expect(settle([0, 10, 20, 50], [1, 6, 11, 26])).toBeUndefined();
      expect(settle([3, 3, 3], [4, 4, 4])).toBeUndefined();
    }
  });
});
