import { invariant } from "../base/invariant.ts";

/**
 * Weights that turn samples into least-squares coefficients: one row for each column of the design, R⁻¹Qᵀ of its factors
 * by modified Gram–Schmidt, each column made orthogonal twice. The columns have to be independent.
 */
export function leastSquaresWeights(design: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const columns = design[0]?.length ?? 0;
  const q: number[][] = [];
  const r: number[][] = [];
  for (let j = 0; j < columns; j++) {
    let column = design.map((row) => row[j]);
    const long = lengthOf(column);
    r.push(new Array<number>(columns).fill(0));
    for (let pass = 0; pass < 2; pass++) {
      for (let i = 0; i < j; i++) {
        const along = sumOf(q[i], column);
        r[i][j] += along;
        column = column.map((value, k) => value - along * q[i][k]);
      }
    }
    const left = lengthOf(column);
    invariant(left > 1e-12 * long, "the columns of the design are independent");
    r[j][j] = left;
    q.push(column.map((value) => value / left));
  }
  const weights = q.map((column) => [...column]);
  for (let i = columns - 1; i >= 0; i--) {
    for (let j = i + 1; j < columns; j++) weights[i] = weights[i].map((value, k) => value - r[i][j] * weights[j][k]);
    weights[i] = weights[i].map((value) => value / r[i][i]);
  }
  return weights;
}

function sumOf(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, k) => sum + value * b[k], 0);
}

function lengthOf(column: readonly number[]): number {
  return Math.sqrt(sumOf(column, column));
}
