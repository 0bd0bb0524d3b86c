import { invariant } from "../base/invariant.ts";
import { triangularise } from "../numerics/householder.ts";
import { covarianceFromTriangle, solveUpper } from "../numerics/triangular.ts";

/** A model to be fitted: residuals and their derivatives at an estimate. */
export interface ResidualModel {
  readonly residualCount: number;
  readonly parameterCount: number;
  /**
   * Writes the residuals (observed less predicted, weighted) and the derivatives of the *predictions* by the
   * parameters, weighted alike.
   *
   * @param residuals residualCount values
   * @param jacobian residualCount × parameterCount, row-major
   */
  evaluate(estimate: Float64Array, residuals: Float64Array, jacobian: Float64Array): void;
}

export interface FitOptions {
  /**
   * The fit counts as converged when a full step changes every parameter by no more than this share of itself, or all
   * predictions together by no more than this share of the residuals. It also does when the predictions change by no
   * more than the rounding of the parameters themselves.
   */
  readonly relativeStep?: number;
  readonly iterations?: number;
}

export type FitResult =
  | {
      readonly kind: "converged";
      readonly estimate: Float64Array;
      /** √diag(s²·(JᵀJ)⁻¹), s the residual standard deviation. */
      readonly standardDeviations: Float64Array;
      readonly residualSumOfSquares: number;
      /** s = √(Σr²/(m − n)); 0 when there are no more residuals than parameters. */
      readonly residualStandardDeviation: number;
      readonly iterations: number;
    }
  /** The derivatives do not tell the parameters apart where the search stands. */
  | { readonly kind: "not settled by the data"; readonly estimate: Float64Array }
  | { readonly kind: "not converged"; readonly estimate: Float64Array; readonly residualSumOfSquares: number };

/**
 * Nonlinear least squares: minimises Σr².
 *
 *   minimise ‖J·δ − r‖² + λ·‖D·δ‖²,  D² = the largest squared column norms of J so far,  x ← x + δ
 *
 * Steps are plain Gauss–Newton (λ = 0) as long as they lower the sum; a step that does not is tried again with growing
 * damping, which fades as steps succeed. Each step is solved by an orthogonal reduction of J itself, never JᵀJ, so that
 * it keeps the digits of an ill-conditioned model. It is converged when an undamped step is within tolerance, whatever
 * it does to the sum in the last digits. Source: damping [Levenberg], scaling by column norms [Moré §2].
 */
export function fitLeastSquares(model: ResidualModel, start: ArrayLike<number>, options: FitOptions = {}): FitResult {
  const { relativeStep = 1e-12, iterations = 1000 } = options;
  const { residualCount: m, parameterCount: n } = model;
  invariant(start.length === n && m >= n && n > 0, "a fit needs a start for each parameter and at least as many rows");
  const residuals = new Float64Array(m);
  const jacobian = new Float64Array(m * n);
  const scales = new Float64Array(n);
  let estimate: Float64Array = Float64Array.from(start);
  model.evaluate(estimate, residuals, jacobian);
  let sum = sumOfSquares(residuals);
  invariant(Number.isFinite(sum), "the model is not finite at the start");
  let damping = 0;

  for (let iteration = 1; iteration <= iterations; iteration++) {
    growScales(scales, jacobian, m, n);
    const step = solveStep(estimate, jacobian, residuals, m, n, damping, scales);
    if (step === undefined) {
      if (damping > 1e12) return { kind: "not settled by the data", estimate };
      damping = damping === 0 ? 1e-6 : damping * 10;
      continue;
    }
    // A damped step that has become tiny must not pass for convergence.
    const { change, changeOfPredictions, roundingOfPredictions } = step;
    const small =
      changeOfPredictions <= Math.max(relativeStep * Math.sqrt(sum), roundingOfPredictions) ||
      isWithin(change, estimate, relativeStep);
    if (damping < 1e-6 && small) return finish(model, estimate, change, sum, iteration);
    const trial = estimate.map((value, i) => value + change[i]!);
    const trialResiduals = new Float64Array(m);
    const trialJacobian = new Float64Array(m * n);
    model.evaluate(trial, trialResiduals, trialJacobian);
    const trialSum = sumOfSquares(trialResiduals);
    // Rounding may raise the sum by a last digit where the step no longer matters.
    if (trialSum <= sum * (1 + 1e-14) && trialJacobian.every(Number.isFinite)) {
      estimate = trial;
      residuals.set(trialResiduals);
      jacobian.set(trialJacobian);
      sum = trialSum;
      damping = damping < 1e-9 ? 0 : damping / 10;
    } else {
      if (damping > 1e12) return { kind: "not converged", estimate, residualSumOfSquares: sum };
      damping = damping === 0 ? 1e-4 : damping * 10;
    }
  }
  return { kind: "not converged", estimate, residualSumOfSquares: sum };
}

/** Takes the last step if it does not hurt, and states the spread there. */
function finish(
  model: ResidualModel,
  before: Float64Array,
  step: Float64Array,
  sumBefore: number,
  iterations: number,
): FitResult {
  const { residualCount: m, parameterCount: n } = model;
  const residuals = new Float64Array(m);
  const jacobian = new Float64Array(m * n);
  let estimate: Float64Array = before.map((value, i) => value + step[i]!);
  model.evaluate(estimate, residuals, jacobian);
  if (!(sumOfSquares(residuals) <= sumBefore * (1 + 1e-12))) {
    estimate = before;
    model.evaluate(estimate, residuals, jacobian);
  }
  const residualSumOfSquares = sumOfSquares(residuals);
  const residualStandardDeviation = m > n ? Math.sqrt(residualSumOfSquares / (m - n)) : 0;
  const { triangle, sizes } = reduceScaled(jacobian, residuals, m, n);
  if (!hasFullRank(triangle, n)) return { kind: "not settled by the data", estimate };
  const covariance = covarianceFromTriangle(triangle, n, n + 1);
  const standardDeviations = Float64Array.from(
    { length: n },
    (_, i) => (residualStandardDeviation * Math.sqrt(covariance[i * n + i]!)) / sizes[i]!,
  );
  return {
    kind: "converged",
    estimate,
    standardDeviations,
    residualSumOfSquares,
    residualStandardDeviation,
    iterations,
  };
}

/** [J | r] with the columns of J brought to length 1, reduced to a triangle with rows of n + 1. */
function reduceScaled(
  jacobian: Float64Array,
  residuals: Float64Array,
  m: number,
  n: number,
  damping = 0,
  scales?: Float64Array,
): { readonly triangle: Float64Array; readonly sizes: Float64Array } {
  const sizes = columnNorms(jacobian, m, n).map((size) => (size > 0 ? size : 1));
  const rows = damping > 0 ? m + n : m;
  const triangle = new Float64Array(rows * (n + 1));
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < n; j++) triangle[i * (n + 1) + j] = jacobian[i * n + j]! / sizes[j]!;
    triangle[i * (n + 1) + n] = residuals[i]!;
  }
  for (let j = 0; rows > m && j < n; j++) {
    triangle[(m + j) * (n + 1) + j] = (Math.sqrt(damping) * (scales?.[j] || 1)) / sizes[j]!;
  }
  triangularise(triangle, rows, n + 1, n);
  return { triangle, sizes };
}

interface Step {
  readonly change: Float64Array;
  /** ‖J·δ‖. */
  readonly changeOfPredictions: number;
  /** What a few last digits of the parameters come to in the predictions. */
  readonly roundingOfPredictions: number;
}

function solveStep(
  estimate: Float64Array,
  jacobian: Float64Array,
  residuals: Float64Array,
  m: number,
  n: number,
  damping: number,
  scales: Float64Array,
): Step | undefined {
  const { triangle, sizes } = reduceScaled(jacobian, residuals, m, n, damping, scales);
  if (!hasFullRank(triangle, n)) return undefined;
  const right = Float64Array.from({ length: n }, (_, i) => triangle[i * (n + 1) + n]!);
  const change = solveUpper(triangle, n, n + 1, right).map((value, i) => value / sizes[i]!);
  let reach = 0;
  for (let j = 0; j < n; j++) reach += sizes[j]! * Math.abs(estimate[j]!);
  return { change, changeOfPredictions: Math.sqrt(sumOfSquares(right)), roundingOfPredictions: 2 ** -50 * reach };
}

/** Columns have length 1: what is left of one after the others, on the diagonal, must be more than rounding. */
function hasFullRank(triangle: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i++) if (!(Math.abs(triangle[i * (n + 1) + i]!) > 1e-15)) return false;
  return true;
}

function isWithin(step: Float64Array, estimate: Float64Array, relativeStep: number): boolean {
  return step.every((value, i) => Math.abs(value) <= relativeStep * Math.abs(estimate[i]!));
}

function growScales(scales: Float64Array, jacobian: Float64Array, m: number, n: number): void {
  const norms = columnNorms(jacobian, m, n);
  for (let j = 0; j < n; j++) scales[j] = Math.max(scales[j]!, norms[j]!);
}

function columnNorms(jacobian: Float64Array, m: number, n: number): Float64Array {
  const squares = new Float64Array(n);
  for (let i = 0; i < m; i++) for (let j = 0; j < n; j++) squares[j] = squares[j]! + jacobian[i * n + j]! ** 2;
  return squares.map(Math.sqrt);
}

function sumOfSquares(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value * value;
  return sum;
}
