/** Σ aᵢ·bᵢ */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

/** P·g of an n × n row-major matrix and n values. */
export function timesMatrix(p: Float64Array, g: Float64Array): Float64Array {
  const n = g.length;
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += p[i * n + j] * g[j];
    out[i] = sum;
  }
  return out;
}

/** gᵀP g: the variance of g·x when P is the covariance of x; what rounding leaves below nothing is nothing. */
export function quadraticForm(p: Float64Array, g: Float64Array): number {
  return Math.max(0, dot(g, timesMatrix(p, g)));
}
