import type { CheckUnknown, GeometricCheck, Setup } from "../checks/check.ts";
import { comparedOption } from "../checks/compared-option.ts";
import { type InstrumentUse, lastingError } from "../instruments/lasting-error.ts";
import { priorOfUnknown } from "../instruments/object.ts";
import { homingYaw, type Machine } from "../machine/machine.ts";
import { type Epoch, epochsFromTimeline } from "./epochs.ts";
import { learntHomingSd } from "./homing-scatter.ts";
import { type EpochModes, layOutModes } from "./mode-history.ts";
import { type Observation, observationsFromEpochs, usableReadings } from "./observations.ts";
import { type Place, placesTouched } from "./places.ts";
import { rockOfMachine } from "./rock.ts";
import type { Timeline } from "./timeline.ts";
import { type Variable, VariableList } from "./variables.ts";

/** One observation with all that it depends on. */
export interface LaidOutObservation extends Observation {
  /** Variable of each gradient column: parameters, then the skimmed state's parameters, then the check's unknowns. */
  readonly columns: Int32Array;
  readonly unknownKeys: readonly string[];
  /** Column of the first unknown. */
  readonly unknownsFrom: number;
  /** Linear extras: the instrument's lasting error, shape residuals that several observations share. */
  readonly extras: readonly { readonly variable: number; readonly coefficient: number }[];
  /** Variance of shape residuals that only this observation has. */
  readonly ownVariance: number;
}

/** The whole estimate laid out as variables and what ties them; nothing is computed yet. */
export interface Problem {
  readonly machine: Machine;
  readonly timeline: Timeline;
  readonly epochs: readonly Epoch[];
  readonly modes: readonly EpochModes[];
  readonly homingSd: number;
  readonly variables: readonly Variable[];
  readonly ties: VariableList["ties"];
  readonly observations: readonly LaidOutObservation[];
  /** Variables of the machine's parameters as it stands now. */
  readonly present: Int32Array;
}

export function layOutProblem(machine: Machine, timeline: Timeline): Problem {
  const list = new VariableList();
  const epochs = epochsFromTimeline(timeline, usableReadings(timeline, machine));
  const modes = layOutModes(machine, timeline, epochs, list);
  const bare = observationsFromEpochs(machine, timeline, epochs, rockOfMachine(timeline));
  const homingSd = learntHomingSd(machine, bare);
  const places = placesTouched(bare, modes);
  const homing = (number: number, stage: number) =>
    homingSd === 0
      ? -1
      : list.withPrior(
          stage,
          { id: `${homingYaw} ${number}`, words: "yaw left by a homing", kind: "homing" },
          0,
          homingSd,
        );
  const byObservation = sharesOfPlaces(places, bare, list);
  const observations = bare.map((observation, index) =>
    layOutObservation(machine, timeline, observation, modes[observation.epoch], homing, list, byObservation[index]),
  );
  const last = epochs.length - 1;
  const present = Int32Array.from(modes[last].columns);
  present[machine.parameterIndex.get(homingYaw) as number] = homing(epochs[last].homing, last);
  const { variables, ties } = list;
  return { machine, timeline, epochs, modes, homingSd, variables, ties, observations, present };
}

interface PlaceShares {
  readonly extras: { variable: number; coefficient: number }[];
  ownVariance: number;
}

/** A place that only one observation touches adds to its noise; one that several touch is an unknown of its own. */
function sharesOfPlaces(
  places: readonly Place[],
  observations: readonly Observation[],
  list: VariableList,
): readonly PlaceShares[] {
  const shares: PlaceShares[] = observations.map(() => ({ extras: [], ownVariance: 0 }));
  for (const { key, sd, touchedBy } of places) {
    const touching = new Set(touchedBy.map(({ observation }) => observation));
    if (touching.size === 1) {
      const total = touchedBy.reduce((sum, { weight }) => sum + weight, 0);
      shares[touchedBy[0].observation].ownVariance += (total * sd) ** 2;
      continue;
    }
    const stage = Math.min(...[...touching].map((index) => observations[index].epoch));
    const variable = list.withPrior(stage, { id: `place ${key}`, words: `shape of ${key}`, kind: "place" }, 0, sd);
    for (const { observation, weight } of touchedBy) {
      shares[observation].extras.push({ variable, coefficient: weight });
    }
  }
  return shares;
}

function layOutObservation(
  machine: Machine,
  timeline: Timeline,
  observation: Observation,
  modes: EpochModes,
  homing: (number: number, stage: number) => number,
  list: VariableList,
  shares: PlaceShares,
): LaidOutObservation {
  const { check, setup, station, epoch } = observation;
  const count = machine.parameters.length;
  const unknowns = check.unknowns(setup, station);
  const unknownsFrom = count * (modes.skim ? 2 : 1);
  const columns = new Int32Array(unknownsFrom + unknowns.length).fill(-1);
  columns.set(modes.columns);
  const yaw = machine.parameterIndex.get(homingYaw) as number;
  columns[yaw] = check.homedAfresh ? -1 : homing(observation.homing, epoch);
  if (modes.skim) columns.set(modes.skim, count);
  unknowns.forEach((unknown, i) => {
    columns[unknownsFrom + i] = unknownVariable(timeline, observation, unknown, modes, list);
  });
  return {
    ...observation,
    columns,
    unknownKeys: unknowns.map(({ key }) => key),
    unknownsFrom,
    extras: [...shares.extras, ...lastingErrorOf(observation, list)],
    ownVariance: shares.ownVariance,
  };
}

function unknownVariable(
  timeline: Timeline,
  { run, epoch }: Observation,
  unknown: CheckUnknown,
  modes: EpochModes,
  list: VariableList,
): number {
  const { words, role } = unknown;
  const objectId = role === undefined ? undefined : run.objects[role];
  const object = objectId === undefined ? null : (timeline.objects.get(objectId) ?? null);
  const { mean, sd } = role === undefined ? unknown : priorOfUnknown(object, unknown.key, unknown);
  const owner =
    unknown.scope === "part"
      ? `part ${modes.spindle}`
      : objectId !== undefined
        ? `object ${objectId}`
        : `run ${run.id}`;
  return list.withPrior(epoch, { id: `${owner}: ${unknown.key}`, words, kind: "unknown" }, mean, sd);
}

/** How a run used its instrument: whether its lasting error cancels, whether it was compared, over what span it was read. */
export function useOfInstrument(check: GeometricCheck, setup: Setup, typed: readonly number[]): InstrumentUse {
  return {
    cancels: check.lastingError === "cancels",
    againstSameSize: setup.options[comparedOption.key] === "yes",
    spanMm: typed.length === 0 ? 0 : Math.max(...typed.map(Math.abs)),
  };
}

/** What of the instrument's permissible error enters: an offset as it is, a scale by the length that was read. */
function lastingErrorOf(
  { check, setup, run, epoch, values }: Observation,
  list: VariableList,
): readonly { variable: number; coefficient: number }[] {
  if (!setup.instrument || values.length === 0) return [];
  const error = lastingError(
    setup.instrument,
    useOfInstrument(
      check,
      setup,
      values.map(({ typed }) => typed),
    ),
  );
  if (error.form === "none") return [];
  const id = `instrument ${run.instrument}: ${error.form}`;
  const sd = error.form === "scale" ? error.sd : error.sdMm;
  const words = `${setup.instrument.name}: its own ${error.form}`;
  const variable = list.withPrior(epoch, { id, words, kind: "unknown" }, 0, sd);
  const typed = values.reduce((sum, v) => sum + v.typed, 0) / values.length;
  return [{ variable, coefficient: error.form === "scale" ? typed : 1 }];
}
