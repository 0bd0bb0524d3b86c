import {
  covarianceTimes,
  eliminate,
  type Factor,
  type StageCovariance,
  solve,
  stageCovariances,
} from "../estimation/elimination.ts";
import type { Machine } from "../machine/machine.ts";
import { dot } from "../numerics/symmetric.ts";
import { settleBounds } from "./bounds.ts";
import { type FitRow, lineariseProblem, type RowOfBound, type WorthOfBounds } from "./linearise.ts";
import { layOutProblem, type Problem } from "./problem.ts";
import type { Timeline } from "./timeline.ts";

/** The converged batch over all events: what is known of the machine, and how well. */
export interface Estimate {
  readonly problem: Problem;
  /** All variables, in their own units. */
  readonly values: Float64Array;
  /** Rows at the estimate, by stage. */
  readonly rows: readonly (readonly FitRow[])[];
  /** Square root of the information at the estimate. */
  readonly factor: Factor;
  /** Joint covariance of each stage's variables. */
  readonly covariances: readonly StageCovariance[];
  readonly iterations: number;
  readonly converged: boolean;
  /** The machine as it stands now, over its parameters, in the modes' units. */
  readonly state: Float64Array;
  /** Covariance of `state`, parameters × parameters, row-major. */
  readonly covariance: Float64Array;
}

/** A step smaller than this, in standard deviations of all variables together, ends the iteration. */
const CONVERGED = 1e-6;
const MOST_ITERATIONS = 25;
const MOST_HALVINGS = 6;

/**
 * Gauss–Newton on the exact model [Björck §9.2]. Every round factors anew: to hold a factor over several rounds saves
 * little beside the Jacobians, and where many readings have made a variable sharp while the first guess was far away
 * a held factor no longer draws nearer.
 *
 * @param before the estimate before the last readings: it is near, and saves a round or two
 */
export function estimateTimeline(machine: Machine, timeline: Timeline, before?: Estimate): Estimate {
  const problem = layOutProblem(machine, timeline);
  return estimateProblem(problem, before && startFrom(problem, before));
}

/** The last estimate is where the next one starts: unknowns keep their names from reading to reading. */
export function startFrom(problem: Problem, before: Estimate): Float64Array {
  const known = new Map(before.problem.variables.map(({ id }, i) => [id, before.values[i]]));
  return Float64Array.from(problem.variables, ({ id, start }) => known.get(id) ?? start);
}

/** @param from where to start, e.g. the estimate before one more reading; the priors' means when left out */
export function estimateProblem(problem: Problem, from?: Float64Array): Estimate {
  const values = from ? Float64Array.from(from) : Float64Array.from(problem.variables, (variable) => variable.start);
  const hasBounds = problem.observations.some(({ bounds }) => bounds.length > 0);
  let worths: WorthOfBounds = new Map();
  let rows = lineariseProblem(problem, values, worths);
  let factor = factorOf(problem, rows);
  const weighBounds = () => {
    worths = renewWorths(rows, factor);
    rows = lineariseProblem(problem, values, worths);
    factor = factorOf(problem, rows);
  };
  if (hasBounds) weighBounds();
  let iterations = 0;
  let converged = false;
  while (iterations < MOST_ITERATIONS) {
    iterations += 1;
    const step = solve(factor);
    converged = sizeOfStep(rows, step) < CONVERGED;
    if (converged) {
      // So small a last step leaves rows and factor as they are, to well below what any reading tells.
      for (let i = 0; i < values.length; i++) values[i] += step[i];
      break;
    }
    rows = takeStep(problem, values, step, costOf(rows), worths);
    factor = factorOf(problem, rows);
    if (hasBounds) weighBounds();
  }
  const covariances = stageCovariances(factor);
  return {
    problem,
    values,
    rows,
    factor,
    covariances,
    iterations,
    converged,
    state: stateFrom(problem.present, values),
    covariance: covarianceOf(problem.present, covariances[covariances.length - 1]),
  };
}

/** The machine's parameters out of all variables; 0 where there is none. */
export function stateFrom(columns: Int32Array, values: Float64Array): Float64Array {
  return Float64Array.from(columns, (column) => (column < 0 ? 0 : values[column]));
}

/** Covariance of the parameters out of a stage's covariance; rows and columns of 0 where there is no variable. */
export function covarianceOf(columns: Int32Array, stage: StageCovariance): Float64Array {
  const place = new Map(stage.variables.map((variable, index) => [variable, index]));
  const n = columns.length;
  const width = stage.variables.length;
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const a = place.get(columns[i]);
    if (a === undefined) continue;
    for (let j = 0; j < n; j++) {
      const b = place.get(columns[j]);
      if (b !== undefined) out[i * n + j] = stage.matrix[a * width + b];
    }
  }
  return out;
}

function factorOf(problem: Problem, stages: readonly (readonly FitRow[])[]): Factor {
  const skim = problem.modes[problem.modes.length - 1].skim ?? [];
  const keepToEnd = [...problem.present, ...skim].filter((column) => column >= 0);
  return eliminate({ variables: problem.variables.length, stages, keepToEnd });
}

/** ‖A·step‖: the step in standard deviations. */
function sizeOfStep(stages: readonly (readonly FitRow[])[], step: Float64Array): number {
  let squares = 0;
  for (const rows of stages) {
    for (const { columns, coefficients } of rows) {
      let sum = 0;
      for (let j = 0; j < columns.length; j++) sum += coefficients[j] * step[columns[j]];
      squares += sum * sum;
    }
  }
  return Math.sqrt(squares);
}

/**
 * Takes the step, or the largest half, quarter … of it that does not make the fit worse: where readings contradict each
 * other by hundreds of standard deviations the curvature that Gauss–Newton leaves out throws the full step across the
 * valley. No step goes beyond ten usual sizes of a variable: a bound far from the first guess would throw it wide.
 */
function takeStep(
  problem: Problem,
  values: Float64Array,
  step: Float64Array,
  cost: number,
  worths: WorthOfBounds,
): ReturnType<typeof lineariseProblem> {
  const from = Float64Array.from(values);
  let share = shareWithinReach(problem, step);
  for (let halving = 0; ; halving++) {
    for (let i = 0; i < values.length; i++) values[i] = from[i] + share * step[i];
    const rows = lineariseProblem(problem, values, worths);
    if (halving === MOST_HALVINGS || costOf(rows) <= cost * (1 + 1e-9) + 1e-9) return rows;
    share /= 2;
  }
}

function shareWithinReach(problem: Problem, step: Float64Array): number {
  let largest = 0;
  problem.variables.forEach(({ usualSd }, i) => {
    largest = Math.max(largest, Math.abs(step[i]) / usualSd);
  });
  return largest > 10 ? 10 / largest : 1;
}

function costOf(stages: readonly (readonly FitRow[])[]): number {
  let cost = 0;
  for (const rows of stages) for (const { rightSide } of rows) cost += rightSide ** 2;
  return cost;
}

/** What each bound is worth, given all else that is known at the present values. */
function renewWorths(stages: readonly (readonly FitRow[])[], factor: Factor): WorthOfBounds {
  const rows = stages.flat().filter(({ bound }) => bound !== null);
  const bounds = rows.map(({ bound }) => bound as RowOfBound);
  const gradients = rows.map(({ columns, coefficients, sd }) => {
    const gradient = new Float64Array(factor.variables);
    for (let j = 0; j < columns.length; j++) gradient[columns[j]] = coefficients[j] * sd;
    return gradient;
  });
  const step = solve(factor);
  const mean = Float64Array.from(bounds, ({ predicted }, i) => predicted + dot(gradients[i], step));
  const products = gradients.map((gradient) => covarianceTimes(factor, gradient));
  const n = rows.length;
  const covariance = Float64Array.from({ length: n * n }, (_, at) =>
    dot(gradients[Math.floor(at / n)], products[at % n]),
  );
  const worths = settleBounds(bounds, mean, covariance);
  return new Map(bounds.map(({ read }, i) => [read, worths[i]]));
}
