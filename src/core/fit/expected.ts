import { type GeometricCheck, type Setup, type Station, usualEntries } from "../checks/check.ts";
import { covarianceTimes } from "../estimation/elimination.ts";
import { lastingError } from "../instruments/lasting-error.ts";
import { priorOfUnknown } from "../instruments/object.ts";
import { readingUncertainty } from "../instruments/reading-uncertainty.ts";
import type { Scene } from "../machine/kinematics.ts";
import { homingYaw } from "../machine/machine.ts";
import { solveSpd } from "../numerics/positive-definite.ts";
import { dot } from "../numerics/symmetric.ts";
import type { Estimate } from "./estimate.ts";
import type { FitRow } from "./linearise.ts";
import type { Observation } from "./observations.ts";
import { type Place, placesTouched } from "./places.ts";
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
  addPlaces(estimate, possible, stations, rows);
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
  readonly own: Map<string, readonly [share: number, variance: number]>;
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
  // A reading with a homing of its own has what that homing leaves as noise of its own.
  const yaw = problem.machine.parameterIndex.get(homingYaw) as number;
  const homing = check.homedAfresh ? predicted.gradient[yaw] * problem.homingSd : 0;
  if (check.homedAfresh && problem.present[yaw] >= 0) known[problem.present[yaw]] = 0;
  addLastingError(possible, station, index, known, own);
  const feel = setup.instrument
    ? readingUncertainty(setup.instrument, likelyEntry(setup), { parts: usualEntries(check, setup.instrument) })
    : 0.05;
  return { known, own, noise: feel ** 2 + homing ** 2 };
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

/** Shape of the places that the run would touch: known as far as earlier readings there have told, else new. */
function addPlaces(
  { problem, rows: stages }: Estimate,
  { check, setup, objects }: PossibleRun,
  stations: readonly Station[],
  rows: readonly PossibleRow[],
): void {
  const epoch = problem.epochs.length - 1;
  const { homing } = problem.epochs[epoch];
  const run = { id: "possible", check: check.id, at: 0, instrument: null, objects, options: setup.options } as const;
  const whole = { ...run, conditions: {}, factor: 1, withdrawn: null };
  const possible = stations.map(
    (station): Observation => ({ run: whole, check, setup, station, epoch, homing, values: [], bounds: [] }),
  );
  const first = problem.observations.length;
  const index = new Map(problem.variables.map(({ id }, i) => [id, i]));
  const before = stages.flat();
  for (const place of placesTouched([...problem.observations, ...possible], problem.modes)) {
    const touching = place.touchedBy.filter(({ observation }) => observation >= first);
    if (touching.length === 0) continue;
    const column = index.get(`place ${place.key}`);
    const told = column === undefined ? toldBySingle(place, first, before) : null;
    for (const { observation, weight } of touching) {
      const { known, own } = rows[observation - first];
      if (column !== undefined) known[column] += weight;
      else {
        for (let j = 0; told?.row && j < told.row.columns.length; j++)
          known[told.row.columns[j]] -= weight * told.share * told.row.coefficients[j];
        const key = `place ${place.key}`;
        own.set(key, [weight + (own.get(key)?.[0] ?? 0), told?.variance ?? place.sd ** 2]);
      }
    }
  }
}

/**
 * A place that one earlier reading touched with the weight w is noise of that reading, sd² in all. Given the machine it
 * is then known to be w·r²/sd² of what that reading leaves over, with the variance r² − w²r⁴/sd².
 */
function toldBySingle(place: Place, first: number, rows: readonly FitRow[]) {
  const earlier = place.touchedBy.filter(({ observation }) => observation < first);
  const row = rows.find(({ observation, bound }) => observation === earlier[0]?.observation && bound === null);
  if (!row) return null;
  const weight = earlier.reduce((sum, touch) => sum + touch.weight, 0);
  const share = (weight * place.sd ** 2) / row.sd;
  return { row, share, variance: place.sd ** 2 - share ** 2 };
}
