import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { minimumZonePlane } from "./flatness.ts";
import { leastSquaresPlane } from "./plane-fit.ts";

// Small whole numbers on a coarse grid make ties and points in line as common as a real field of touches has them.
const fields = fc.array(
  fc.tuple(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 4 }), fc.integer({ min: -9, max: 9 })),
  { minLength: 3, maxLength: 9 },
);

/**
 * The least width over every plane that touches: through three points, or parallel to two lines through two points
 * each. One of these is the best plane.
 */
function widthByTrial(x: readonly number[], y: readonly number[], z: readonly number[]): number {
  let best = Number.POSITIVE_INFINITY;
  const steps: [number, number, number][] = [];
  for (let i = 0; i < x.length; i++) {
    for (let j = i + 1; j < x.length; j++) steps.push([x[j]! - x[i]!, y[j]! - y[i]!, z[j]! - z[i]!]);
  }
  for (const [dx, dy, dz] of steps) {
    for (const [ex, ey, ez] of steps) {
      const cross = dx * ey - dy * ex;
      if (cross === 0) continue;
      const a = (dz * ey - ez * dy) / cross;
      const b = (dx * ez - ex * dz) / cross;
      const offsets = z.map((height, k) => height - a * x[k]! - b * y[k]!);
      best = Math.min(best, Math.max(...offsets) - Math.min(...offsets));
    }
  }
  return best;
}

describe("flatness", () => {
  test("the minimum zone is the least width over all planes that touch the points", () => {
    fc.assert(
      fc.property(fields, (points) => {
        const x = points.map((point) => point[0] * 60);
        const y = points.map((point) => point[1] * 85);
        const z = points.map((point) => point[2]);
        const expected = widthByTrial(x, y, z);
        const zone = minimumZonePlane(x, y, z);
        if (expected === Number.POSITIVE_INFINITY) {
          expect(zone).toBeUndefined();
          expect(leastSquaresPlane(x, y, z)).toBeUndefined();
          return;
        }
        expect(zone!.width).toBeCloseTo(expected, 10);
        expect(leastSquaresPlane(x, y, z)!.width).toBeGreaterThanOrEqual(zone!.width - 1e-10);
      }),
      { seed: 7, numRuns: 1000 },
    );
  });

  test("a common plane added to the field changes no width", () => {
    const x = [0, 200, 400, 0, 200, 400, 0, 200, 400];
    const y = [0, 0, 0, 300, 300, 300, 600, 600, 600];
    const z = [0.02, 0.1, 0, -0.03, 0.2, 0.05, 0.01, 0, 0.07];
    const tilted = z.map((height, i) => height - 12 + 0.001 * x[i]! + 0.003 * y[i]!);
    for (const settle of [minimumZonePlane, leastSquaresPlane]) {
      expect(settle(x, y, tilted)!.width).toBeCloseTo(settle(x, y, z)!.width, 12);
      expect(settle(x, y, tilted)!.slopeY).toBeCloseTo(settle(x, y, z)!.slopeY + 0.003, 12);
    }
  });

  test("the least-squares deviations have no mean and no slope left", () => {
    const x = [0, 100, 200, 50, 170];
    const y = [0, 10, 0, 120, 140];
    const plane = leastSquaresPlane(x, y, [1, 2, -1, 0.5, 3])!;
    const moment = (weights: readonly number[]) => plane.deviations.reduce((sum, d, i) => sum + d * weights[i]!, 0);
    expect(moment([1, 1, 1, 1, 1])).toBeCloseTo(0, 12);
    expect(moment(x)).toBeCloseTo(0, 10);
    expect(moment(y)).toBeCloseTo(0, 10);
  });

  test("a field of 15 × 15 touches is settled, and by planes that touch four points", () => {
    const x: number[] = [];
    const y: number[] = [];
    const z: number[] = [];
    for (let i = 0; i < 15; i++) {
      for (let j = 0; j < 15; j++) {
        x.push(i * 40);
        y.push(j * 55);
        z.push(Math.round(100 * Math.sin(i * 12.9898 + j * 78.233)) / 100);
      }
    }
    const zone = minimumZonePlane(x, y, z)!;
    const touching = zone.deviations.filter((d) => Math.abs(d) > zone.width / 2 - 1e-9);
    expect(touching.length).toBeGreaterThanOrEqual(4);
    expect(zone.width).toBeLessThanOrEqual(leastSquaresPlane(x, y, z)!.width);
  });
});
