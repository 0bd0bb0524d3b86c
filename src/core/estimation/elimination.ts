import { invariant } from "../base/invariant.ts";
import { triangularise } from "../numerics/householder.ts";
import { covarianceFromTriangle, solveUpper } from "../numerics/triangular.ts";

/**
 * Linear least squares over a sequence of stages, in square-root information form.
 *
 * Rows are whitened: coefficients · δ ≈ rightSide with unit standard deviation. A variable lives from the first stage
 * whose rows name it to the last; there it is eliminated: the stage's rows are made triangular by Householder
 * reflections, the top rows (the eliminated variables given those that go on) are kept, the rest is carried forward.
 * What comes out is the R of the whole stacked system under a column order, so the result equals the stacked QR; work
 * and memory grow with the number of stages, not with its square.
 *
 * Forward pass = filter, backward pass = smoother: the square-root information filter and smoother of
 * [Bierman 1977 ch. V, X], arranged as elimination.
 */
export interface Row {
  /** Indices of the variables, each at most once. */
  readonly columns: readonly number[] | Int32Array;
  readonly coefficients: Float64Array;
  readonly rightSide: number;
}

export interface StagedSystem {
  readonly variables: number;
  readonly stages: readonly (readonly Row[])[];
  /** Variables that are wanted together at the end: they are eliminated in the last stage whatever names them. */
  readonly keepToEnd: readonly number[];
}

/** One stage's share of R: rows of the eliminated variables over [eliminated | going on | right side]. */
interface Front {
  readonly eliminated: readonly number[];
  readonly goingOn: readonly number[];
  readonly triangle: Float64Array;
  readonly stride: number;
}

export interface Factor {
  readonly variables: number;
  readonly fronts: readonly Front[];
  /** The least sum of squares of the linear system. */
  readonly residualSquares: number;
}

/** Rows that can be 0 at once: variables that no row names are never in a front and keep the value 0. */
export function eliminate(system: StagedSystem): Factor {
  const { stages } = system;
  const lastUse = lastStageOfVariables(system);
  const fronts: Front[] = [];
  let carried: { variables: number[]; triangle: Float64Array; rows: number } = {
    variables: [],
    triangle: new Float64Array(0),
    rows: 0,
  };
  let residualSquares = 0;
  stages.forEach((rows, stage) => {
    const active = activeVariables(carried.variables, rows);
    const eliminated = active.filter((variable) => lastUse[variable] === stage);
    const goingOn = active.filter((variable) => lastUse[variable] !== stage);
    const order = [...eliminated, ...goingOn];
    const stride = order.length + 1;
    const height = carried.rows + rows.length;
    const a = stack(order, stride, carried, rows, system.variables);
    const pivots = Math.min(height, order.length);
    triangularise(a, height, stride, pivots);
    const kept = Math.min(eliminated.length, height);
    fronts.push({ eliminated, goingOn, triangle: a.slice(0, kept * stride), stride });
    invariant(kept === eliminated.length, "every variable that ends has a prior, so there are rows enough");
    for (let row = pivots; row < height; row++) residualSquares += a[row * stride + order.length] ** 2;
    carried = carryForward(a, stride, eliminated.length, goingOn, pivots);
  });
  invariant(carried.variables.length === 0, "the last stage eliminates what is left");
  return { variables: system.variables, fronts, residualSquares };
}

/** δ of all variables. */
export function solve(factor: Factor): Float64Array {
  return backSubstitute(factor, ({ triangle, stride }, row) => triangle[row * stride + stride - 1]);
}

/** (RᵀR)⁻¹ g: the joint covariance of all variables times g. */
export function covarianceTimes(factor: Factor, g: Float64Array): Float64Array {
  const rest = Float64Array.from(g);
  const reduced: Float64Array[] = [];
  for (const { eliminated, goingOn, triangle, stride } of factor.fronts) {
    const n = eliminated.length;
    const u = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      const diagonal = triangle[i * stride + i];
      u[i] = rest[eliminated[i]] / diagonal;
      if (u[i] === 0) continue;
      for (let j = i + 1; j < n; j++) rest[eliminated[j]] -= triangle[i * stride + j] * u[i];
      for (let j = 0; j < goingOn.length; j++) rest[goingOn[j]] -= triangle[i * stride + n + j] * u[i];
    }
    reduced.push(u);
  }
  return backSubstitute(factor, (_, row, stage) => reduced[stage][row]);
}

/** Joint covariance of a stage's own variables, given all rows of all stages. */
export interface StageCovariance {
  readonly variables: readonly number[];
  /** n × n, row-major. */
  readonly matrix: Float64Array;
}

/**
 * Covariances of the stages, last first. For a stage with rows R₁ δ₁ + R₁₂ δ₂ = z: δ₁ = R₁⁻¹(z − R₁₂ δ₂), so
 * P₁₂ = −K P₂₂ and P₁₁ = R₁⁻¹R₁⁻ᵀ + K P₂₂ Kᵀ with K = R₁⁻¹R₁₂.
 */
export function stageCovariances(factor: Factor, fromStage = 0): readonly StageCovariance[] {
  const out: StageCovariance[] = [];
  let later: StageCovariance = { variables: [], matrix: new Float64Array(0) };
  for (let stage = factor.fronts.length - 1; stage >= fromStage; stage--) {
    later = covarianceOfFront(factor.fronts[stage], later);
    out[stage] = later;
  }
  return out;
}

function covarianceOfFront(front: Front, later: StageCovariance): StageCovariance {
  const { eliminated, goingOn, triangle, stride } = front;
  const m = eliminated.length;
  const k = goingOn.length;
  const n = m + k;
  const matrix = new Float64Array(n * n);
  const own = covarianceFromTriangle(triangle, m, stride);
  for (let i = 0; i < m; i++) for (let j = 0; j < m; j++) matrix[i * n + j] = own[i * m + j];
  if (k > 0) {
    const place = new Map(later.variables.map((variable, index) => [variable, index]));
    const at = goingOn.map((variable) => place.get(variable) as number);
    const width = later.variables.length;
    // K column by column: R₁ K = R₁₂.
    const gain: Float64Array[] = [];
    for (let j = 0; j < k; j++) {
      const column = new Float64Array(m);
      for (let i = 0; i < m; i++) column[i] = triangle[i * stride + m + j];
      gain.push(solveUpper(triangle, m, stride, column));
    }
    for (let a = 0; a < k; a++) {
      for (let b = 0; b < k; b++) matrix[(m + a) * n + m + b] = later.matrix[at[a] * width + at[b]];
    }
    for (let i = 0; i < m; i++) {
      for (let b = 0; b < k; b++) {
        let sum = 0;
        for (let a = 0; a < k; a++) sum -= gain[a][i] * matrix[(m + a) * n + m + b];
        matrix[i * n + m + b] = sum;
        matrix[(m + b) * n + i] = sum;
      }
    }
    for (let i = 0; i < m; i++) {
      for (let j = i; j < m; j++) {
        let sum = matrix[i * n + j];
        for (let a = 0; a < k; a++) sum -= matrix[i * n + m + a] * gain[a][j];
        matrix[i * n + j] = sum;
        matrix[j * n + i] = sum;
      }
    }
  }
  return { variables: [...eliminated, ...goingOn], matrix };
}

function backSubstitute(factor: Factor, rightSide: (front: Front, row: number, stage: number) => number): Float64Array {
  const x = new Float64Array(factor.variables);
  for (let stage = factor.fronts.length - 1; stage >= 0; stage--) {
    const front = factor.fronts[stage];
    const { eliminated, goingOn, triangle, stride } = front;
    const n = eliminated.length;
    for (let i = n - 1; i >= 0; i--) {
      let sum = rightSide(front, i, stage);
      for (let j = i + 1; j < n; j++) sum -= triangle[i * stride + j] * x[eliminated[j]];
      for (let j = 0; j < goingOn.length; j++) sum -= triangle[i * stride + n + j] * x[goingOn[j]];
      x[eliminated[i]] = sum / triangle[i * stride + i];
    }
  }
  return x;
}

function lastStageOfVariables({ variables, stages, keepToEnd }: StagedSystem): Int32Array {
  const last = new Int32Array(variables).fill(-1);
  stages.forEach((rows, stage) => {
    for (const { columns } of rows) for (const column of columns) last[column] = stage;
  });
  for (const variable of keepToEnd) last[variable] = stages.length - 1;
  return last;
}

function activeVariables(carried: readonly number[], rows: readonly Row[]): number[] {
  const seen = new Set(carried);
  for (const { columns } of rows) for (const column of columns) seen.add(column);
  return [...seen].sort((a, b) => a - b);
}

function stack(
  order: readonly number[],
  stride: number,
  carried: { readonly variables: readonly number[]; readonly triangle: Float64Array; readonly rows: number },
  rows: readonly Row[],
  variables: number,
): Float64Array {
  const place = new Int32Array(variables);
  order.forEach((variable, index) => {
    place[variable] = index;
  });
  const a = new Float64Array((carried.rows + rows.length) * stride);
  const width = carried.variables.length + 1;
  for (let row = 0; row < carried.rows; row++) {
    for (let j = 0; j < carried.variables.length; j++) {
      a[row * stride + place[carried.variables[j]]] = carried.triangle[row * width + j];
    }
    a[row * stride + stride - 1] = carried.triangle[row * width + width - 1];
  }
  rows.forEach(({ columns, coefficients, rightSide }, index) => {
    const offset = (carried.rows + index) * stride;
    for (let j = 0; j < columns.length; j++) a[offset + place[columns[j]]] += coefficients[j];
    a[offset + stride - 1] = rightSide;
  });
  return a;
}

function carryForward(
  a: Float64Array,
  stride: number,
  eliminated: number,
  goingOn: readonly number[],
  pivots: number,
): { variables: number[]; triangle: Float64Array; rows: number } {
  const rows = Math.max(0, pivots - eliminated);
  const width = goingOn.length + 1;
  const triangle = new Float64Array(rows * width);
  for (let row = 0; row < rows; row++) {
    for (let j = 0; j < width; j++) triangle[row * width + j] = a[(eliminated + row) * stride + eliminated + j];
  }
  return { variables: [...goingOn], triangle, rows };
}
