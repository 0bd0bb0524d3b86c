import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { triangularise } from "./householder.ts";
import { createRandom } from "./random.ts";

/** AᵀA, which an orthogonal reduction leaves as it is. */
function gram(a: Float64Array, rows: number, columns: number): Float64Array {
  const g = new Float64Array(columns * columns);
  for (let i = 0; i < rows; i++) {
    for (let p = 0; p < columns; p++) {
      for (let q = 0; q < columns; q++) g[p * columns + q]! += a[i * columns + p]! * a[i * columns + q]!;
    }
  }
  return g;
}

function largest(values: Iterable<number>): number {
  let top = 0;
  for (const value of values) top = Math.max(top, Math.abs(value));
  return top;
}

function randomMatrix(seed: number, rows: number, columns: number, share: number): Float64Array {
  const random = createRandom(seed);
  return Float64Array.from({ length: rows * columns }, () => (random.uniform() < share ? random.normal() : 0));
}

// Shapes go past two slabs (64 rows at least) and past square, so that every path of the kernel is taken; half of the
// matrices are mostly zeros, as rows of readings are.
const shapes = fc.record({
  seed: fc.integer({ min: 0, max: 1e9 }),
  rows: fc.integer({ min: 1, max: 300 }),
  columns: fc.integer({ min: 1, max: 20 }),
  share: fc.constantFrom(1, 0.1),
});

describe("triangularise", () => {
  test("keeps the Gram matrix of any matrix and leaves exact zeros below the diagonal", () => {
    fc.assert(
      fc.property(shapes, ({ seed, rows, columns, share }) => {
        const a = randomMatrix(seed, rows, columns, share);
        const before = gram(a, rows, columns);
        triangularise(a, rows, columns);
        const after = gram(a, rows, columns);
        const scale = Math.max(largest(before), 1);
        for (let i = 0; i < before.length; i++) {
          expect(Math.abs(after[i]! - before[i]!)).toBeLessThanOrEqual(1e-13 * scale);
        }
        for (let i = 0; i < rows; i++) {
          for (let j = 0; j < Math.min(i, columns); j++) expect(a[i * columns + j]).toBe(0);
        }
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  test("with fewer pivots keeps the transformed right-hand side in the rows below", () => {
    const [rows, columns] = [200, 5];
    const a = randomMatrix(3, rows, columns, 1);
    const before = gram(a, rows, columns);
    triangularise(a, rows, columns, 3);
    const after = gram(a, rows, columns);
    for (let i = 0; i < before.length; i++) expect(after[i]).toBeCloseTo(before[i]!, 10);
    for (let i = 3; i < rows; i++) expect(Array.from(a.subarray(i * columns, i * columns + 3))).toEqual([0, 0, 0]);
    expect(largest(a.subarray(150 * columns))).toBeGreaterThan(0.1);
  });

  test("leaves the residual norm as the last diagonal entry", () => {
    // y = 1, 3, 2, 4 on x = 0…3: the line 1.3 + 0.8x leaves −0.3, 0.9, −0.9, 0.3.
    const a = Float64Array.from([1, 0, 1, 1, 1, 3, 1, 2, 2, 1, 3, 4]);
    triangularise(a, 4, 3);
    expect(Math.abs(a[8]!)).toBeCloseTo(Math.sqrt(1.8), 14);
    const slope = a[5]! / a[4]!;
    expect(slope).toBeCloseTo(0.8, 14);
    expect((a[2]! - a[1]! * slope) / a[0]!).toBeCloseTo(1.3, 14);
  });

  test("is not upset by columns near the ends of the number range", () => {
    const plain = randomMatrix(11, 150, 4, 1);
    const sizes = [1e300, 1e-300, 1, 5e-318];
    const extreme = plain.map((value, at) => value * sizes[at % 4]!);
    triangularise(plain, 150, 4);
    triangularise(extreme, 150, 4);
    for (const [row, column] of [
      [0, 0],
      [0, 1],
      [1, 1],
      [1, 2],
      [2, 2],
    ] as const) {
      const at = row * 4 + column;
      expect(extreme[at]! / sizes[column]! / plain[at]!).toBeCloseTo(1, 12);
    }
    // Below the normal range a double has few digits of its own.
    expect(extreme[15]! / sizes[3]! / plain[15]!).toBeCloseTo(1, 3);
  });

  test("keeps a column of zeros and a column that is a copy of another", () => {
    const random = createRandom(5);
    const a = new Float64Array(100 * 3);
    for (let i = 0; i < 100; i++) {
      a[i * 3] = random.normal();
      a[i * 3 + 2] = a[i * 3]!;
    }
    triangularise(a, 100, 3);
    expect(a[1]).toBe(0);
    expect(a[4]).toBe(0);
    expect(a[2]).toBeCloseTo(a[0]!, 12);
    expect(Math.abs(a[5]!) + Math.abs(a[8]!)).toBeLessThan(1e-13);
  });

  test("leaves a matrix that is upper triangular already as it is", () => {
    const a = Float64Array.from([2, 1, 3, 0, -4, 1, 0, 0, 5, 0, 0, 0]);
    const before = Array.from(a);
    triangularise(a, 4, 3);
    expect(Array.from(a)).toEqual(before);
  });

  test("refuses values that are not finite", () => {
    expect(() => triangularise(Float64Array.from([1, Number.NaN, 2, 3]), 2, 2)).toThrow("not finite");
  });
});
