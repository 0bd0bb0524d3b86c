import { Matrix, pseudoInverse } from "ml-matrix";

/** Rows of the pseudo-inverse of a design matrix: weights that turn samples into least-squares coefficients. */
export function leastSquaresWeights(design: readonly (readonly number[])[]): readonly (readonly number[])[] {
  return pseudoInverse(new Matrix(design as number[][])).to2DArray();
}
