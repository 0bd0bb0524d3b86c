import type { CheckUnknown, GeometricCheck, Setup, Station } from "../checks/check.ts";
import type { Estimate } from "../fit/estimate.ts";
import { readingFeel } from "../fit/expected-rows.ts";
import { presentScene } from "../fit/present-scene.ts";
import type { LaidOutObservation } from "../fit/problem.ts";
import { rockOfMachine } from "../fit/rock.ts";
import { priorOfUnknown } from "../instruments/object.ts";
import type { Scene } from "../machine/kinematics.ts";
import { homingYaw } from "../machine/machine.ts";

/** Something that can be read while a joint is open: a run that goes on, or one that is begun for it. */
export interface GaugeRun {
  readonly check: GeometricCheck;
  readonly setup: Setup;
  readonly objects: Readonly<Record<string, string>>;
  /** Null for a run to be begun. */
  readonly run: string | null;
  /** It is read after the machine has been homed anew, all its stations in the one homing. */
  readonly homesFirst: boolean;
  /** 1 or −1: what is read, times this, is the formula's reading. */
  readonly factor: number;
}

/** A machine in some state, values only, over the machine's parameters. */
export type SceneAt = (state: Float64Array) => Scene;

/** One station of a run as the gauge shows it. */
export interface GaugeStation {
  readonly station: Station;
  /** What a person types: nominal included, in the check's core unit. */
  reads(state: Float64Array): number;
  /** Over the columns of the present scene, with the unknowns of the formula left out. */
  readonly gradient: Float64Array;
  readonly unknowns: readonly GaugeUnknown[];
  /** Variance of one reading that is drawn anew each time. */
  readonly ownVariance: number;
}

/** An unknown of the check's formula in one reading. */
export interface GaugeUnknown {
  /** With its owner's name: two stations that name the same share it. */
  readonly id: string;
  readonly share: number;
  readonly sd: number;
  /** Whether readings that were taken bear on it; what they say of a run's own zero holds while the run goes on. */
  readonly isEstimated: boolean;
  /** Whether it comes from how the run was set up, so that it is another when that is done anew. */
  readonly isSetUp: boolean;
}

/**
 * The stations of a run with the formula's unknowns as the estimate has them, or else as known beforehand. Readings lie
 * in the homing in force, whatever the states say of it; a check that homes each time reads without one, and so does a run
 * for which the machine is homed first: what that homing will leave is then one more thing that is not known. Where a run has
 * read a station before, what the surface's own shape and the instrument have been found to add there stays in.
 */
export function gaugeStations(estimate: Estimate, sceneAt: SceneAt, gauge: GaugeRun): readonly GaugeStation[] {
  const { check, setup } = gauge;
  const { problem } = estimate;
  const rock = check.atTip && check.quantity === "length" ? rockOfMachine(problem.timeline) : 0;
  const feel = readingFeel(gauge);
  const yaw = problem.machine.parameterIndex.get(homingYaw) as number;
  const homed = (state: Float64Array, by = 0) => {
    const copy = Float64Array.from(state);
    copy[yaw] = (check.homedAfresh || gauge.homesFirst ? 0 : estimate.state[yaw]) + by;
    return sceneAt(copy);
  };
  const columns = columnsById(estimate);
  const present = presentScene(estimate);
  return check.stations(setup).map((station): GaugeStation => {
    const unknowns = check.unknowns(setup, station).map((unknown) => {
      const id = unknownId(estimate, gauge, unknown);
      const isSetUp = id.startsWith("run ") && unknown.lasts !== true;
      return { key: unknown.key, id, isSetUp, ...known(estimate, gauge, unknown, columns.get(id)) };
    });
    const predictDual = (scene: Scene, shifted: string | null = null) =>
      check.predict(scene, station, setup, (key) => {
        const value = unknowns.find((unknown) => unknown.key === key)?.value ?? 0;
        return { value: value + (key === shifted ? 1 : 0), gradient: new Float64Array(scene.size) };
      });
    const predict = (scene: Scene, shifted: string | null = null) => predictDual(scene, shifted).value;
    const adds = gauge.run === null ? 0 : foundThere(estimate, gauge.run, station);
    const now = homed(estimate.state);
    const atNow = predict(now);
    const perYaw = check.homedAfresh || gauge.homesFirst ? predict(homed(estimate.state, 1)) - atNow : 0;
    const gradient = predictDual(present).gradient.map((slope) => gauge.factor * slope);
    if (gauge.homesFirst) gradient[yaw] = 0;
    return {
      station,
      reads: (state) => gauge.factor * (predict(homed(state)) + adds + (station.nominal ?? 0)),
      gradient,
      unknowns: [
        ...unknowns.map(({ key, id, sd, isEstimated, isSetUp }) => {
          return { id, sd, isEstimated, isSetUp, share: predict(now, key) - atNow };
        }),
        ...(gauge.homesFirst
          ? [{ id: "homing to come", sd: problem.homingSd, isEstimated: false, isSetUp: false, share: perYaw }]
          : []),
      ],
      ownVariance: feel ** 2 + rock ** 2 + (gauge.homesFirst ? 0 : (perYaw * problem.homingSd) ** 2),
    };
  });
}

const columnsOfEstimates = new WeakMap<Estimate, ReadonlyMap<string, number>>();

function columnsById(estimate: Estimate): ReadonlyMap<string, number> {
  let columns = columnsOfEstimates.get(estimate);
  if (!columns) {
    columns = new Map(estimate.problem.variables.map(({ id }, index) => [id, index]));
    columnsOfEstimates.set(estimate, columns);
  }
  return columns;
}

/** Whose an unknown is, named as the fit names it. */
function unknownId({ problem }: Estimate, { objects, run }: GaugeRun, { scope, role, key }: CheckUnknown): string {
  if (scope === "part") return `part ${problem.modes[problem.modes.length - 1].spindle}: ${key}`;
  const object = role === undefined ? undefined : objects[role];
  return `${object === undefined ? `run ${run ?? "to be begun"}` : `object ${object}`}: ${key}`;
}

function known(estimate: Estimate, { objects }: GaugeRun, unknown: CheckUnknown, column: number | undefined) {
  if (column !== undefined) {
    return { value: estimate.values[column], sd: sdOfVariable(estimate, column), isEstimated: true };
  }
  const object = unknown.role === undefined ? undefined : objects[unknown.role];
  const { mean, sd } =
    object === undefined
      ? unknown
      : priorOfUnknown(estimate.problem.timeline.objects.get(object) ?? null, unknown.key, unknown);
  return { value: mean, sd, isEstimated: false };
}

/** In the last stage that has the variable. */
function sdOfVariable({ covariances }: Estimate, column: number): number {
  for (let stage = covariances.length - 1; stage >= 0; stage--) {
    const { variables, matrix } = covariances[stage];
    const at = variables.indexOf(column);
    if (at >= 0) return Math.sqrt(Math.max(0, matrix[at * (variables.length + 1)]));
  }
  return Number.POSITIVE_INFINITY;
}

/** What of the latest readings there is due to the place and the instrument, and not to the machine. */
function foundThere(estimate: Estimate, run: string, { key }: Station): number {
  const { problem, values } = estimate;
  let index = problem.observations.length - 1;
  while (index >= 0 && !isOf(problem.observations[index], run, key)) index -= 1;
  const observation = index < 0 ? null : problem.observations[index];
  const surfaceNow = problem.modes[problem.modes.length - 1].bedSurface;
  if (!observation || problem.modes[observation.epoch].bedSurface !== surfaceNow) return 0;
  let found = ownShape(estimate, observation, index);
  for (const { variable, coefficient } of observation.extras) found += coefficient * values[variable];
  return found;
}

function isOf({ run, station }: LaidOutObservation, id: string, key: string): boolean {
  return run.id === id && station.key === key;
}

/** A place that this observation alone has touched: its share of what the reading leaves over. */
function ownShape({ rows }: Estimate, { ownVariance, epoch }: LaidOutObservation, index: number): number {
  const row = rows[epoch].find(({ observation, bound }) => observation === index && bound === null);
  return row ? (ownVariance / row.sd) * row.rightSide : 0;
}
