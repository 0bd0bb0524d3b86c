import { CholeskyDecomposition, Matrix } from "ml-matrix";

/** Solves S·x = b for a symmetric positive definite S, n × n row-major, by Cholesky. */
export function solveSpd(s: Float64Array, n: number, b: Float64Array): Float64Array {
  const matrix = Matrix.from1DArray(n, n, Array.from(s));
  return Float64Array.from(new CholeskyDecomposition(matrix).solve(Matrix.columnVector(Array.from(b))).to1DArray());
}
