import { invariant } from "../base/invariant.ts";

/**
 * L⁻¹·C, L the lower root of S = L·Lᵀ (Cholesky): the scalar product of two of its columns is cᵢᵀ·S⁻¹·cⱼ.
 *
 * @param s symmetric positive definite, n × n, row-major; only what is on and below the diagonal is read
 * @param c n × k, row-major
 * @returns n × k, row-major
 */
export function whiten(s: Float64Array, n: number, c: Float64Array, k: number): Float64Array {
  invariant(s.length === n * n && c.length === n * k, "as many rows in one as in the other");
  const root = new Float64Array(n * n);
  const out = Float64Array.from(c);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = s[i * n + j];
      for (let l = 0; l < j; l++) sum -= root[i * n + l] * root[j * n + l];
      if (i > j) root[i * n + j] = sum / root[j * n + j];
      else {
        invariant(sum > 0, "the matrix is positive definite");
        root[i * n + i] = Math.sqrt(sum);
      }
    }
    for (let j = 0; j < i; j++) {
      const share = root[i * n + j];
      if (share === 0) continue;
      for (let a = 0; a < k; a++) out[i * k + a] -= share * out[j * k + a];
    }
    for (let a = 0; a < k; a++) out[i * k + a] /= root[i * n + i];
  }
  return out;
}
