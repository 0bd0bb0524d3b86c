import type { Row } from "../estimation/elimination.ts";
import type { Scene } from "../machine/kinematics.ts";
import type { Dual } from "../numerics/dual.ts";
import { type BoundWorth, worthNothing } from "./bounds.ts";
import type { ReadBound } from "./observations.ts";
import type { LaidOutObservation, Problem } from "./problem.ts";
import { repeatFrom, repeatsTogether } from "./repeats.ts";

/** One whitened row of the problem and what it came from. */
export interface FitRow extends Row {
  /** Index into `problem.observations`; −1 for a tie between variables. */
  readonly observation: number;
  /** Standard deviation that the row was divided by, in the reading's unit. */
  readonly sd: number;
  /** For a bound; null for the mean of all values of the observation. */
  readonly bound: RowOfBound | null;
}

/** What is needed to say anew what a bound is worth. */
export interface RowOfBound {
  readonly read: ReadBound;
  /** How soft the bound is, what shape and homing leave to chance included. */
  readonly softness: number;
  readonly predicted: number;
  readonly worth: BoundWorth;
}

/** What each bound is taken to be worth in this round; nothing where it is not listed. */
export type WorthOfBounds = ReadonlyMap<ReadBound, BoundWorth>;

/** All rows, by stage, with residuals and Jacobians at the given values of the variables. */
export function lineariseProblem(
  problem: Problem,
  values: Float64Array,
  worths: WorthOfBounds,
): readonly (readonly FitRow[])[] {
  const stages: FitRow[][] = problem.epochs.map(() => []);
  for (const { stage, columns, coefficients, target, sd } of problem.ties) {
    let at = 0;
    for (let j = 0; j < columns.length; j++) at += coefficients[j] * values[columns[j]];
    stages[stage].push({
      columns,
      coefficients: Float64Array.from(coefficients, (c) => c / sd),
      rightSide: (target - at) / sd,
      observation: -1,
      sd,
      bound: null,
    });
  }
  problem.observations.forEach((observation, index) => {
    stages[observation.epoch].push(...rowsOfObservation(problem, observation, index, values, worths));
  });
  return stages;
}

/** The prediction of an observation with its gradient over the observation's own columns, extras included in the value. */
export function predictObservation(problem: Problem, observation: LaidOutObservation, values: Float64Array): Dual {
  const { columns, check, station, setup, extras, unknownsFrom, unknownKeys } = observation;
  const { machine } = problem;
  const count = machine.parameters.length;
  const at = (column: number) => (columns[column] < 0 ? 0 : values[columns[column]]);
  const stateFromColumn = (first: number) => {
    const state = new Float64Array(count);
    for (let i = 0; i < count; i++) state[i] = at(first + i);
    return state;
  };
  const skimmed = unknownsFrom > count;
  const scene: Scene = {
    machine,
    state: stateFromColumn(0),
    size: columns.length,
    skim: skimmed ? { state: stateFromColumn(count), column: count } : null,
  };
  const unknown = (key: string): Dual => {
    const column = unknownsFrom + unknownKeys.indexOf(key);
    const gradient = new Float64Array(columns.length);
    gradient[column] = 1;
    return { value: at(column), gradient };
  };
  const predicted = check.predict(scene, station, setup, unknown);
  let value = predicted.value;
  for (const { variable, coefficient } of extras) value += coefficient * values[variable];
  return { value, gradient: predicted.gradient };
}

function rowsOfObservation(
  problem: Problem,
  observation: LaidOutObservation,
  index: number,
  values: Float64Array,
  worths: WorthOfBounds,
): readonly FitRow[] {
  const predicted = predictObservation(problem, observation, values);
  const { columns, gradient } = gather(observation, predicted.gradient);
  const rows: FitRow[] = [];
  const whitened = (sd: number, residual: number, bound: RowOfBound | null): FitRow => ({
    columns,
    coefficients: gradient.map((g) => g / sd),
    rightSide: residual / sd,
    observation: index,
    sd,
    bound,
  });
  const extra = observation.ownVariance + ownHomingVariance(problem, observation, predicted.gradient);
  const mean = weightedMean(observation, extra);
  if (mean) rows.push(whitened(mean.sd, mean.value - predicted.value, null));
  for (const read of tightest(observation.bounds)) {
    const worth = worths.get(read) ?? worthNothing;
    const softness = Math.sqrt(read.sd ** 2 + extra);
    const bound = { read, softness, predicted: predicted.value, worth };
    const residual = worth === worthNothing ? 0 : worth.target - predicted.value;
    rows.push(whitened(1 / Math.sqrt(worth.information), residual, bound));
  }
  return rows;
}

/** Felt again, a leaf tells nothing new: of the bounds on one side of one place only the tightest counts. */
function tightest(bounds: readonly ReadBound[]): readonly ReadBound[] {
  if (bounds.length < 2) return bounds;
  const tighter = (a: ReadBound, b: ReadBound) => ((a.side === "atLeast") === a.bound < b.bound ? b : a);
  return (["atLeast", "atMost"] as const).flatMap((side) => {
    const own = bounds.filter((bound) => bound.side === side);
    return own.length > 0 ? [own.reduce(tighter)] : [];
  });
}

/** Weighted mean of an observation's values; shape and homing of their own do not average out over repeats of a place. */
export function weightedMean(
  observation: LaidOutObservation,
  extraVariance: number,
): { readonly value: number; readonly sd: number } | null {
  const { values, check, ownVariance } = observation;
  if (values.length === 0) return null;
  const ownHoming = check.homedAfresh ? extraVariance - ownVariance : 0;
  const lasting = extraVariance - ownHoming;
  const { mean, variance } = repeatsTogether(values.map((value) => repeatFrom(value, ownHoming)));
  return { value: mean, sd: Math.sqrt(variance + lasting) };
}

/** A reading with a homing of its own: what that homing left is noise of this reading alone. */
export function ownHomingVariance(problem: Problem, { check }: LaidOutObservation, gradient: Float64Array): number {
  if (!check.homedAfresh) return 0;
  const { machine, homingSd } = problem;
  return (gradient[machine.parameters.length - 1] * homingSd) ** 2;
}

/** From gradient columns to variables: columns without a variable drop out, a variable that stands twice is summed. */
function gather(
  { columns, extras }: LaidOutObservation,
  gradient: Float64Array,
): { columns: Int32Array; gradient: Float64Array } {
  const most = columns.length + extras.length;
  const variables = new Int32Array(most);
  const sums = new Float64Array(most);
  let count = 0;
  const add = (variable: number, coefficient: number) => {
    // A row names some twenty variables: to look through them is faster than to keep a map.
    for (let k = 0; k < count; k++) {
      if (variables[k] === variable) {
        sums[k] += coefficient;
        return;
      }
    }
    variables[count] = variable;
    sums[count] = coefficient;
    count += 1;
  };
  for (let i = 0; i < columns.length; i++) if (columns[i] >= 0 && gradient[i] !== 0) add(columns[i], gradient[i]);
  for (const { variable, coefficient } of extras) add(variable, coefficient);
  return { columns: variables.slice(0, count), gradient: sums.slice(0, count) };
}
