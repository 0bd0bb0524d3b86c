import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createRandom } from "../numerics/random.ts";
import { endPointLine, leastSquaresLine } from "./line-fit.ts";
import { minimumZoneLine, minimumZoneWidth } from "./straightness.ts";

const profiles = fc.array(fc.tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: -20, max: 20 })), {
  minLength: 2,
  maxLength: 15,
});

/** The width at every slope that two points can have, one of which is the best. */
function widthByTrial(positions: readonly number[], heights: readonly number[]): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < positions.length; i++) {
    for (let j = 0; j < positions.length; j++) {
      if (positions[i] === positions[j]) continue;
      const slope = (heights[j]! - heights[i]!) / (positions[j]! - positions[i]!);
      const offsets = heights.map((height, k) => height - slope * positions[k]!);
      best = Math.min(best, Math.max(...offsets) - Math.min(...offsets));
    }
  }
  return best;
}

describe("straightness", () => {
  test("the minimum zone is the least width over all slopes between two points", () => {
    fc.assert(
      fc.property(profiles, (points) => {
        const positions = points.map(([x]) => x);
        const heights = points.map(([, z]) => z);
        const zone = minimumZoneLine(positions, heights);
        if (new Set(positions).size < 2) {
          expect(zone).toBeUndefined();
          return;
        }
        expect(zone!.width).toBeCloseTo(widthByTrial(positions, heights), 10);
        expect(Math.max(...zone!.deviations)).toBeCloseTo(zone!.width / 2, 10);
        expect(Math.min(...zone!.deviations)).toBeCloseTo(-zone!.width / 2, 10);
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  test("no line of another kind is narrower, and a common line added to the profile changes no width", () => {
    const positions = [0, 100, 250, 300, 480];
    const heights = [0.1, -0.05, 0.3, 0.2, 0];
    const tilted = heights.map((height, i) => height + 3 - 0.002 * positions[i]!);
    for (const settle of [minimumZoneLine, leastSquaresLine, endPointLine]) {
      expect(settle(positions, tilted)!.width).toBeCloseTo(settle(positions, heights)!.width, 12);
      expect(settle(positions, tilted)!.slope).toBeCloseTo(settle(positions, heights)!.slope - 0.002, 14);
      expect(settle(positions, heights)!.width).toBeGreaterThanOrEqual(
        minimumZoneLine(positions, heights)!.width - 1e-15,
      );
    }
  });

  test("points over one place settle no line", () => {
    for (const settle of [minimumZoneLine, leastSquaresLine, endPointLine]) {
      expect(settle([5, 5, 5], [1, 2, 3])).toBeUndefined();
      expect(settle([], [])).toBeUndefined();
    }
  });
});

describe("the width alone", () => {
  test("is that of the minimum-zone line", () => {
    const random = createRandom(11);
    const positions = Array.from({ length: 11 }, (_, i) => i);
    for (let trial = 0; trial < 300; trial++) {
      const heights = positions.map((x) => 0.1 * x + random.normal());
      expect(minimumZoneWidth(positions, heights)).toBeCloseTo(minimumZoneLine(positions, heights)?.width ?? -1, 12);
    }
  });
});
