import { invariant } from "../base/invariant.ts";

// All matrices here are row-major with a row stride, so that the triangle can be used where `triangularise` left it,
// inside a wider augmented array. Only the entries on and above the diagonal are read.

/**
 * Solves R·x = b by back substitution.
 *
 * @param r upper triangle, n × n at the start of an array whose rows are `stride` apart; no 0 on its diagonal
 * @param b n values; left as they are
 * @returns x, n values
 */
export function solveUpper(r: Float64Array, n: number, stride: number, b: ArrayLike<number>): Float64Array {
  checkShape(r, n, stride);
  const x = new Float64Array(n);
  for (let i = n - 1; i >= 0; i--) {
    const row = i * stride;
    let sum = b[i]!;
    for (let j = i + 1; j < n; j++) sum -= r[row + j]! * x[j]!;
    x[i] = sum / r[row + i]!;
  }
  return x;
}

/**
 * Solves Rᵀ·x = b by forward substitution, going through R by rows.
 *
 * @param r upper triangle, as for `solveUpper`
 * @param b n values; left as they are
 * @returns x, n values
 */
export function solveUpperTransposed(r: Float64Array, n: number, stride: number, b: ArrayLike<number>): Float64Array {
  checkShape(r, n, stride);
  const x = new Float64Array(n);
  for (let i = 0; i < n; i++) x[i] = b[i]!;
  for (let i = 0; i < n; i++) {
    const row = i * stride;
    const xi = x[i]! / r[row + i]!;
    x[i] = xi;
    if (xi === 0) continue;
    for (let j = i + 1; j < n; j++) x[j] = x[j]! - r[row + j]! * xi;
  }
  return x;
}

/**
 * The inverse of an upper triangle.
 *
 * @param r upper triangle, as for `solveUpper`
 * @returns R⁻¹, n × n, row-major with stride n, upper triangular with zeros below
 */
export function invertUpper(r: Float64Array, n: number, stride: number): Float64Array {
  checkShape(r, n, stride);
  const inverse = new Float64Array(n * n);
  // Row i of R⁻¹ from the rows below it: r_ii·s_i = e_i − Σ_{k>i} r_ik·s_k.
  for (let i = n - 1; i >= 0; i--) {
    const row = i * stride;
    const out = i * n;
    for (let k = i + 1; k < n; k++) {
      const rik = r[row + k]!;
      if (rik === 0) continue;
      const from = k * n;
      for (let j = k; j < n; j++) inverse[out + j] = inverse[out + j]! - rik * inverse[from + j]!;
    }
    inverse[out + i] = 1;
    const diagonal = r[row + i]!;
    for (let j = i; j < n; j++) inverse[out + j] = inverse[out + j]! / diagonal;
  }
  return inverse;
}

/**
 * The covariance that belongs to a square root of the information matrix: P = (RᵀR)⁻¹ = R⁻¹R⁻ᵀ.
 *
 * @param r upper triangle, as for `solveUpper`, in units of one over a standard deviation
 * @returns P, n × n, row-major with stride n, exactly symmetric
 */
export function covarianceFromTriangle(r: Float64Array, n: number, stride: number): Float64Array {
  const s = invertUpper(r, n, stride);
  const p = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = i; j < n; j++) {
      let sum = 0;
      for (let k = j; k < n; k++) sum += s[i * n + k]! * s[j * n + k]!;
      p[i * n + j] = sum;
      p[j * n + i] = sum;
    }
  }
  return p;
}

function checkShape(r: Float64Array, n: number, stride: number): void {
  invariant(n >= 0 && stride >= n, "the row stride is shorter than the triangle");
  invariant(n === 0 || r.length >= (n - 1) * stride + n, "the array is shorter than the triangle");
  for (let i = 0; i < n; i++) invariant(r[i * stride + i] !== 0, "the triangle is singular: a 0 on its diagonal");
}
