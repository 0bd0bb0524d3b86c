import fc from "fast-check";
import { Matrix, pseudoInverse } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { leastSquaresWeights } from "./surface-weights.ts";

describe("least-squares weights", () => {
  it("are the rows of the pseudo-inverse of a design with independent columns", () => {
    const at = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.array(at, { minLength: 3, maxLength: 12 }), (shifts) => {
        // Places that are pulled apart by their own number, so that no two fall together.
        const design = shifts.map((shift, i) => [1, 3 * i + shift, (3 * i + shift) ** 2]);
        const expected = pseudoInverse(new Matrix(design)).to2DArray();
        leastSquaresWeights(design).forEach((row, i) => {
          row.forEach((weight, k) => {
            expect(weight).toBeCloseTo(expected[i][k], 9);
          });
        });
      }),
      { seed: 20_261_126 },
    );
  });
});
