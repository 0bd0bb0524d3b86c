import { type GeometricCheck, type Setup, type Station, usualEntries } from "../checks/check.ts";
import { covarianceTimes } from "../estimation/elimination.ts";
import { lastingError } from "../instruments/lasting-error.ts";
import { priorOfUnknown } from "../instruments/object.ts";
import { readingUncertainty } from "../instruments/reading-uncertainty.ts";
import type { Scene } from "../machine/kinematics.ts";
import { solveSpd } from "../numerics/positive-definite.ts";
import type { Estimate } from "./estimate.ts";
import { presentScene } from "./present-scene.ts";
import { useOfInstrument } from "./problem.ts";

/** A run that could be taken: which check, how set up, with what in hand. */
export interface PossibleRun {
  readonly check: GeometricCheck;
  readonly setup: Setup;
  /** Object id by role; a role without one brings an object that nothing is known of. */
  readonly objects: Readonly<Record<string, string>>;
}

/**
 * Variances that a possible run would leave for some functions of the machine, without taking a reading: the posterior
 * covariance needs only the formula. With H the rows of the run over all present variables, U its own unknowns with
 * prior variances K, R its readings' variances: S = H P Hᵀ + U K Uᵀ + R, and gᵀPg falls by (H P g)ᵀ S⁻¹ (H P g).
 *
 * @param gradients functions of interest, over all variables of the problem
 * @returns variance now and after, one pair for each function
 */
export function expectedVariances(
  estimate: Estimate,
  possible: PossibleRun,
  gradients: readonly Float64Array[],
): readonly { readonly now: number; readonly after: number }[] {
  const { check, setup } = possible;
  const stations = check.stations(setup);
  const rows = stations.map((station) => rowOf(estimate, possible, station));
  const m = rows.length;
  const products = rows.map((row) => covarianceTimes(estimate.factor, row.known));
  const s = new Float64Array(m * m);
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < m; j++) {
      let sum = dot(rows[i].known, products[j]);
      for (const [key, [share, variance]] of rows[i].own) sum += share * variance * (rows[j].own.get(key)?.[0] ?? 0);
      s[i * m + j] = sum + (i === j ? rows[i].noise : 0);
    }
  }
  for (let i = 0; i < m; i++) for (let j = 0; j < i; j++) s[i * m + j] = s[j * m + i];
  return gradients.map((g) => {
    const now = dot(g, covarianceTimes(estimate.factor, g));
    if (m === 0) return { now, after: now };
    const c = Float64Array.from(products, (product) => dot(product, g));
    const gain = dot(c, solveSpd(s, m, c));
    return { now, after: Math.max(0, now - gain) };
  });
}

interface PossibleRow {
  /** Coefficients over the variables that the estimate has. */
  readonly known: Float64Array;
  /** Coefficients and prior variances of unknowns that would be new. */
  readonly own: ReadonlyMap<string, readonly [share: number, variance: number]>;
  readonly noise: number;
}

function rowOf(estimate: Estimate, possible: PossibleRun, station: Station): PossibleRow {
  const { check, setup, objects } = possible;
  const { problem, values } = estimate;
  const present = presentScene(estimate);
  const unknowns = check.unknowns(setup, station);
  const from = present.size;
  const scene: Scene = { ...present, size: from + unknowns.length };
  const index = new Map(problem.variables.map((variable, i) => [variable.id, i]));
  const columnOf = (key: string) => {
    const unknown = unknowns.find((u) => u.key === key);
    const role = unknown?.role;
    const object = role === undefined ? undefined : objects[role];
    if (unknown?.scope === "part") return index.get(`part ${problem.modes[problem.modes.length - 1].spindle}: ${key}`);
    return object === undefined ? undefined : index.get(`object ${object}: ${key}`);
  };
  const predicted = check.predict(scene, station, setup, (key) => {
    const at = unknowns.findIndex((u) => u.key === key);
    const gradient = new Float64Array(scene.size);
    gradient[from + at] = 1;
    const column = columnOf(key);
    return { value: column === undefined ? unknowns[at].mean : values[column], gradient };
  });
  const known = new Float64Array(problem.variables.length);
  const own = new Map<string, readonly [number, number]>();
  const { skim } = problem.modes[problem.modes.length - 1];
  const count = problem.present.length;
  for (let i = 0; i < from; i++) {
    const column = i < count ? problem.present[i] : (skim as Int32Array)[i - count];
    if (column >= 0) known[column] += predicted.gradient[i];
  }
  unknowns.forEach((unknown, i) => {
    const share = predicted.gradient[from + i];
    const column = columnOf(unknown.key);
    if (column !== undefined) known[column] += share;
    else {
      const object = unknown.role === undefined ? undefined : objects[unknown.role];
      const stated = object === undefined ? null : (problem.timeline.objects.get(object) ?? null);
      own.set(unknown.key, [share, priorOfUnknown(stated, unknown.key, unknown).sd ** 2]);
    }
  });
  addLastingError(possible, station, index, known, own);
  const feel = setup.instrument
    ? readingUncertainty(setup.instrument, likelyEntry(setup), { parts: usualEntries(check, setup.instrument) })
    : 0.05;
  return { known, own, noise: feel ** 2 + shapeVariance(check, setup, station) };
}

/** The instrument's lasting error is known as far as it is from before, and new where the instrument is. */
function addLastingError(
  { check, setup }: PossibleRun,
  station: Station,
  index: ReadonlyMap<string, number>,
  known: Float64Array,
  own: Map<string, readonly [share: number, variance: number]>,
): void {
  if (!setup.instrument) return;
  const typed = station.nominal ?? 0;
  const error = lastingError(setup.instrument, useOfInstrument(check, setup, [typed]));
  if (error.form === "none") return;
  const share = error.form === "scale" ? typed : 1;
  const column = index.get(`instrument ${setup.instrument.id}: ${error.form}`);
  if (column !== undefined) known[column] += share;
  else own.set(`instrument: ${error.form}`, [share, (error.form === "scale" ? error.sd : error.sdMm) ** 2]);
}

/** A gap is felt as goes and does not go; anything else is read as a number. */
function likelyEntry({ instrument }: Setup) {
  return instrument?.family === "feeler"
    ? ({ form: "interval", goes: 0.5, doesNotGo: 0.55 } as const)
    : ({ form: "value", value: 1 } as const);
}

// Half a metre's worth of shape: what a spot of a surface departs from the smooth model by, mm.
const SHAPE = 0.02;

function shapeVariance(check: GeometricCheck, setup: Setup, station: Station): number {
  return (check.touches?.(setup, station) ?? []).reduce((sum, { weight }) => sum + (weight * SHAPE) ** 2, 0);
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
