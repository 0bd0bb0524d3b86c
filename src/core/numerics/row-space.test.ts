import fc from "fast-check";
import { Matrix, SingularValueDecomposition } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { rowSpace } from "./row-space.ts";

/** Far from where squares run out of digits. */
const number = fc.integer({ min: -80, max: 80 }).map((eighths) => eighths / 8);
const matrices = fc
  .record({
    rows: fc.integer({ min: 1, max: 9 }),
    columns: fc.integer({ min: 1, max: 7 }),
    rank: fc.integer({ min: 0, max: 4 }),
  })
  .chain(({ rows, columns, rank }) =>
    fc.record({
      rows: fc.constant(rows),
      columns: fc.constant(columns),
      left: fc.array(number, { minLength: rows * rank, maxLength: rows * rank }),
      right: fc.array(number, { minLength: rank * columns, maxLength: rank * columns }),
      rank: fc.constant(rank),
    }),
  )
  .map(({ rows, columns, left, right, rank }) => ({
    rows,
    columns,
    matrix: Float64Array.from({ length: rows * columns }, (_, at) => {
      const [i, j] = [Math.floor(at / columns), at % columns];
      return Array.from({ length: rank }, (_, r) => left[i * rank + r] * right[r * columns + j]).reduce(
        (a, b) => a + b,
        0,
      );
    }),
  }));

const tolerance = 1e-9;

function product(space: ReturnType<typeof rowSpace>, rows: number, columns: number): Float64Array {
  const { rank, coordinates, basis } = space;
  return Float64Array.from({ length: rows * columns }, (_, at) => {
    const [i, j] = [Math.floor(at / columns), at % columns];
    let sum = 0;
    for (let r = 0; r < rank; r++) sum += coordinates[i * rank + r] * basis[r * columns + j];
    return sum;
  });
}

describe("the space of a matrix's rows", () => {
  it("gives the matrix back as the product of its two parts", () => {
    fc.assert(
      fc.property(matrices, ({ matrix, rows, columns }) => {
        const again = product(rowSpace(matrix, rows, columns, tolerance), rows, columns);
        const most = Math.max(...matrix.map(Math.abs));
        again.forEach((value, at) => {
          expect(Math.abs(value - matrix[at])).toBeLessThanOrEqual(1e-8 * most);
        });
      }),
      { seed: 71 },
    );
  });

  it("has a basis of length 1 and right angles", () => {
    fc.assert(
      fc.property(matrices, ({ matrix, rows, columns }) => {
        const { rank, basis } = rowSpace(matrix, rows, columns, tolerance);
        for (let a = 0; a < rank; a++)
          for (let b = 0; b <= a; b++) {
            let sum = 0;
            for (let j = 0; j < columns; j++) sum += basis[a * columns + j] * basis[b * columns + j];
            expect(sum).toBeCloseTo(a === b ? 1 : 0, 10);
          }
      }),
      { seed: 72 },
    );
  });

  it("has no more directions than an independent program finds singular values for", () => {
    fc.assert(
      fc.property(matrices, ({ matrix, rows, columns }) => {
        const { diagonal } = new SingularValueDecomposition(Matrix.from1DArray(rows, columns, matrix), {
          autoTranspose: true,
        });
        const most = Math.max(...diagonal);
        // A remainder is at least as long as what is left of the matrix in its own direction, so this side is safe.
        const large = diagonal.filter((value) => value > 1e-6 * most).length;
        const any = most === 0 ? 0 : diagonal.filter((value) => value > 1e-12 * most).length;
        const { rank } = rowSpace(matrix, rows, columns, tolerance);
        expect(rank).toBeGreaterThanOrEqual(most === 0 ? 0 : large);
        expect(rank).toBeLessThanOrEqual(Math.max(any, 0));
      }),
      { seed: 73 },
    );
  });
});
