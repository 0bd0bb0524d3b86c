import { describe, expect, test } from "vitest";
import { covarianceFromTriangle, invertUpper, solveUpper, solveUpperTransposed } from "./triangular.ts";

// 3 × 3 triangle inside rows of four; what stands below the diagonal and in the fourth column must not be read.
const [n, stride] = [3, 4];
const r = Float64Array.from([2, -1, 3, 99, 77, 4, 0.5, 99, 77, 77, -5, 99]);
const upper = (i: number, j: number) => (j >= i ? r[i * stride + j]! : 0);

describe("triangular systems", () => {
  test("solveUpper undoes a product with R", () => {
    const x = [1, -2, 3];
    const b = [0, 1, 2].map((i) => x.reduce((sum, xj, j) => sum + upper(i, j) * xj, 0));
    expect(Array.from(solveUpper(r, n, stride, b))).toEqual(x);
  });

  test("solveUpperTransposed undoes a product with Rᵀ", () => {
    const x = [1, -2, 3];
    const b = [0, 1, 2].map((j) => x.reduce((sum, xi, i) => sum + upper(i, j) * xi, 0));
    expect(Array.from(solveUpperTransposed(r, n, stride, b))).toEqual(x);
  });

  test("invertUpper gives the inverse, zeros below the diagonal", () => {
    const inverse = invertUpper(r, n, stride);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        let sum = 0;
        for (let k = 0; k < n; k++) sum += upper(i, k) * inverse[k * n + j]!;
        expect(sum).toBeCloseTo(i === j ? 1 : 0, 15);
        if (j < i) expect(inverse[i * n + j]).toBe(0);
      }
    }
  });

  test("covarianceFromTriangle is the symmetric inverse of RᵀR", () => {
    const p = covarianceFromTriangle(r, n, stride);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        let sum = 0;
        for (let k = 0; k < n; k++) {
          let information = 0;
          for (let m = 0; m < n; m++) information += upper(m, i) * upper(m, k);
          sum += information * p[k * n + j]!;
        }
        expect(sum).toBeCloseTo(i === j ? 1 : 0, 13);
        expect(p[i * n + j]).toBe(p[j * n + i]);
      }
    }
  });

  test("a 0 on the diagonal is a mistake of the caller", () => {
    expect(() => solveUpper(Float64Array.from([1, 2, 0, 0]), 2, 2, [1, 1])).toThrow("singular");
  });
});
