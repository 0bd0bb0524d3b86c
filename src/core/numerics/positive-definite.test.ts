import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { whiten } from "./positive-definite.ts";
import { createRandom } from "./random.ts";

describe("L⁻¹C of S = LLᵀ", () => {
  it("is known in closed form for two rows", () => {
    // S = [4 2; 2 5] has L = [2 0; 1 2].
    expect(Array.from(whiten(Float64Array.of(4, 2, 2, 5), 2, Float64Array.of(2, 4, 5, 2), 2))).toEqual([1, 2, 2, 0]);
  });

  it("has columns whose products are those under S⁻¹", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 6 }), fc.nat(1e6), (n, k, seed) => {
        const random = createRandom(seed);
        const a = Float64Array.from({ length: n * n }, () => random.normal());
        const s = new Float64Array(n * n);
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++)
            for (let l = 0; l < n; l++) s[i * n + j] += a[i * n + l] * a[j * n + l] + (i === j ? 1 / n : 0);
        const x = Float64Array.from({ length: n * k }, () => random.normal());
        const c = new Float64Array(n * k);
        for (let i = 0; i < n; i++)
          for (let j = 0; j < k; j++) for (let l = 0; l < n; l++) c[i * k + j] += s[i * n + l] * x[l * k + j];
        // With C = S·X the products of columns are XᵀSX.
        const w = whiten(s, n, c, k);
        for (let p = 0; p < k; p++) {
          for (let q = 0; q < k; q++) {
            let product = 0;
            let direct = 0;
            for (let i = 0; i < n; i++) {
              product += w[i * k + p] * w[i * k + q];
              direct += x[i * k + p] * c[i * k + q];
            }
            expect(product).toBeCloseTo(direct, 7);
          }
        }
      }),
      { seed: 20250301, numRuns: 60 },
    );
  });
});
