import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { contourAt, type GridPlace, type HeightGrid, sharesBetween } from "./contour-bands.ts";

function gridOf(columns: number, rows: number, height: (column: number, row: number) => number): HeightGrid {
  return {
    columns,
    rows,
    values: Array.from({ length: columns * rows }, (_, i) => height(i % columns, Math.floor(i / columns))),
  };
}

/** Half the sum of the cross products: + counter-clockwise. */
function areaOf(ring: readonly GridPlace[]): number {
  return ring.reduce((sum, [x, y], i) => {
    const [x1, y1] = ring[(i + 1) % ring.length];
    return sum + (x * y1 - x1 * y) / 2;
  }, 0);
}

function areaAbove(grid: HeightGrid, level: number): number {
  return contourAt(grid, level).regions.reduce((sum, ring) => sum + areaOf(ring), 0);
}

describe("contours", () => {
  test("of a ramp are straight lines from edge to edge, with the region on the high side", () => {
    const contour = contourAt(
      gridOf(11, 6, (column) => column),
      3.5,
    );
    expect(contour.regions).toHaveLength(1);
    expect(contour.lines).toHaveLength(1);
    for (const [column] of contour.lines[0]) expect(column).toBeCloseTo(3.5, 12);
    expect(areaOf(contour.regions[0])).toBeCloseTo(6.5 * 5, 9);
  });

  test("of a hill are closed, and of a hollow leave a hole in the region", () => {
    const hill = gridOf(21, 21, (x, y) => -((x - 10) ** 2) - (y - 10) ** 2);
    const up = contourAt(hill, -36);
    expect(up.regions).toHaveLength(1);
    expect(up.lines[0][0]).toEqual(up.lines[0][up.lines[0].length - 1]);
    expect(areaOf(up.regions[0])).toBeGreaterThan(0);
    expect(Math.abs(areaOf(up.regions[0]) - Math.PI * 36)).toBeLessThan(2);
    const hollow = { ...hill, values: Array.from(hill.values, (value) => -value) };
    const around = contourAt(hollow, 36);
    expect(around.regions.map((ring) => Math.sign(areaOf(ring))).sort()).toEqual([-1, 1]);
  });

  test("at a level that stands on the grid's own heights still close", () => {
    const contour = contourAt(
      gridOf(5, 5, (column, row) => Math.max(Math.abs(column - 2), Math.abs(row - 2))),
      1,
    );
    expect(contour.regions.reduce((sum, ring) => sum + areaOf(ring), 0)).toBeGreaterThan(0);
  });

  test("of what is nowhere so high are empty, and of what is everywhere higher are the whole grid", () => {
    const flat = gridOf(4, 3, () => 1);
    expect(contourAt(flat, 2)).toEqual({ level: 2, regions: [], lines: [] });
    const whole = contourAt(flat, 0);
    expect(whole.lines).toEqual([]);
    expect(areaOf(whole.regions[0])).toBe(6);
  });

  test("the regions above and below a level fill the grid, saddles or not", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 30, maxLength: 30 }),
        (heights) => {
          const grid: HeightGrid = { columns: 6, rows: 5, values: heights };
          const below: HeightGrid = { ...grid, values: heights.map((value) => -value) };
          const saddles = countSaddles(grid);
          const sum = areaAbove(grid, 0.1) + areaAbove(below, -0.1);
          // In a square that is a saddle both sides take the middle.
          if (saddles === 0) expect(sum).toBeCloseTo(20, 6);
          else expect(sum).toBeGreaterThanOrEqual(20 - 1e-6);
          expect(areaAbove(grid, 0.1)).toBeGreaterThanOrEqual(-1e-9);
        },
      ),
      { seed: 4, numRuns: 200 },
    );
  });

  test("shares between levels make one and follow the area", () => {
    const grid = gridOf(101, 11, (column) => column / 100);
    const shares = sharesBetween(grid, [0.255, 0.505]);
    expect(shares.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
    expect(shares[0]).toBeCloseTo(0.255, 2);
    expect(shares[1]).toBeCloseTo(0.25, 2);
  });
});

function countSaddles({ columns, rows, values }: HeightGrid): number {
  let saddles = 0;
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const at = (c: number, r: number) => values[(row + r) * columns + column + c] >= 0.1;
      if (at(0, 0) === at(1, 1) && at(1, 0) === at(0, 1) && at(0, 0) !== at(1, 0)) saddles++;
    }
  }
  return saddles;
}
