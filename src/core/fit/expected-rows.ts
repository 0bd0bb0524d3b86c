import { type CheckUnknown, type GeometricCheck, type Setup, type Station, usualEntries } from "../checks/check.ts";
import type { Instrument } from "../instruments/instrument.ts";
import { lastingError } from "../instruments/lasting-error.ts";
import { stacksAround, stacksOf } from "../instruments/leaves.ts";
import { priorOfUnknown } from "../instruments/object.ts";
import type { MeasuredEntry } from "../instruments/reading-uncertainty.ts";
import type { Scene } from "../machine/kinematics.ts";
import { homingYaw } from "../machine/machine.ts";
import type { Estimate } from "./estimate.ts";
import type { FitRow } from "./linearise.ts";
import { type Observation, uncertaintyOfEntry } from "./observations.ts";
import { type Place, placesTouched } from "./places.ts";
import { presentScene } from "./present-scene.ts";
import { useOfInstrument } from "./problem.ts";
import { rockOfMachine } from "./rock.ts";
import type { Run, Timeline } from "./timeline.ts";

/** A run that could be taken: which check, how set up, with what in hand. */
export interface PossibleRun {
  readonly check: GeometricCheck;
  readonly setup: Setup;
  /** Object id by role; a role without one brings an object that nothing is known of. */
  readonly objects: Readonly<Record<string, string>>;
}

/** A reading that could be taken, as the fit would write it: Σ coefficient·variable + Σ share·unknown + noise. */
export interface ExpectedRow {
  /** Over the variables that the estimate has; each at most once. */
  readonly columns: Int32Array;
  readonly coefficients: Float64Array;
  /** Unknowns that would be new, by key: two rows that name the same share it. */
  readonly own: ReadonlyMap<string, OwnUnknown>;
  /** Variance of what this reading alone has. */
  readonly noise: number;
}

export interface OwnUnknown {
  readonly share: number;
  readonly variance: number;
}

/** What an estimate gives to every run that could follow it, looked up once. */
export interface GroundOfRows {
  readonly estimate: Estimate;
  readonly scene: Scene;
  /** The same without the yaw of the homing in force, for readings that have a homing of their own. */
  readonly freshScene: Scene;
  readonly columnById: ReadonlyMap<string, number>;
  readonly places: readonly Place[];
  readonly placeByKey: ReadonlyMap<string, Place>;
  /** The row of an observation's values, by observation. */
  readonly rowOfValues: ReadonlyMap<number, FitRow>;
  /** What the tip moves by hand, mm. */
  readonly rock: number;
}

export function groundOfRows(estimate: Estimate): GroundOfRows {
  const { problem, rows } = estimate;
  const scene = presentScene(estimate);
  const fresh = Float64Array.from(scene.state);
  fresh[problem.machine.parameterIndex.get(homingYaw) as number] = 0;
  const places = placesTouched(problem.observations, problem.modes);
  const rowOfValues = new Map<number, FitRow>();
  for (const row of rows.flat()) if (row.observation >= 0 && row.bound === null) rowOfValues.set(row.observation, row);
  return {
    estimate,
    scene,
    freshScene: { ...scene, state: fresh },
    columnById: new Map(problem.variables.map(({ id }, index) => [id, index])),
    places,
    placeByKey: new Map(places.map((place) => [place.key, place])),
    rowOfValues,
    rock: rockOfMachine(problem.timeline),
  };
}

/** Rows of all stations of runs that would be taken one after the other, within the homing and the epoch in force. */
export function expectedRows(ground: GroundOfRows, runs: readonly PossibleRun[]): readonly ExpectedRow[] {
  const drafts: Draft[] = [];
  const observations: Observation[] = [];
  const { problem } = ground.estimate;
  const epoch = problem.epochs.length - 1;
  const { homing } = problem.epochs[epoch];
  runs.forEach((possible, index) => {
    const { check, setup } = possible;
    const run = runOf(possible, `possible ${index}`);
    const isRocked = check.atTip && check.quantity === "length";
    const noise = readingFeel(possible) ** 2 + (isRocked ? ground.rock ** 2 : 0);
    for (const station of check.stations(setup)) {
      const draft: Draft = { known: new Map(), own: new Map(), noise, typed: station.nominal ?? 0 };
      addPrediction(ground, possible, run.id, station, draft);
      drafts.push(draft);
      observations.push({ run, check, setup, station, epoch, homing, values: [], bounds: [] });
    }
  });
  addPlaces(ground, observations, drafts);
  observations.forEach(({ check, setup }, i) => {
    addLastingError(ground, check, setup, drafts[i]);
  });
  return drafts.map(({ known, own, noise }) => ({
    columns: Int32Array.from(known.keys()),
    coefficients: Float64Array.from(known.values()),
    own,
    noise,
  }));
}

interface Draft {
  readonly known: Map<number, number>;
  readonly own: Map<string, OwnUnknown>;
  noise: number;
  /** What a person would read, nominal included. */
  typed: number;
}

function runOf({ check, setup, objects }: PossibleRun, id: string): Run {
  const { options } = setup;
  return { id, check: check.id, at: 0, instrument: null, objects, options, conditions: {}, factor: 1, withdrawn: null };
}

function addPrediction(
  { estimate, scene: present, freshScene, columnById }: GroundOfRows,
  { check, setup, objects }: PossibleRun,
  run: string,
  station: Station,
  draft: Draft,
): void {
  const { problem, values } = estimate;
  const unknowns = check.unknowns(setup, station);
  const from = present.size;
  const scene: Scene = { ...(check.homedAfresh ? freshScene : present), size: from + unknowns.length };
  const { spindle } = problem.modes[problem.modes.length - 1];
  const owners = unknowns.map((unknown) => ownerOf(unknown, objects, spindle, run));
  const columns = unknowns.map(({ key }, i) => columnById.get(`${owners[i]}: ${key}`));
  const priors = unknowns.map((unknown) => priorOf(unknown, objects, problem.timeline.objects));
  const predicted = check.predict(scene, station, setup, (key) => {
    const at = unknowns.findIndex((unknown) => unknown.key === key);
    const gradient = new Float64Array(scene.size);
    gradient[from + at] = 1;
    const column = columns[at];
    return { value: column === undefined ? priors[at].mean : values[column], gradient };
  });
  const { skim } = problem.modes[problem.modes.length - 1];
  const count = problem.present.length;
  const yaw = problem.machine.parameterIndex.get(homingYaw) as number;
  for (let i = 0; i < from; i++) {
    // A reading with a homing of its own has what that homing leaves as noise of its own.
    if (check.homedAfresh && i === yaw) draft.noise += (predicted.gradient[i] * problem.homingSd) ** 2;
    else addKnown(draft, i < count ? problem.present[i] : (skim as Int32Array)[i - count], predicted.gradient[i]);
  }
  unknowns.forEach(({ key }, i) => {
    const share = predicted.gradient[from + i];
    const column = columns[i];
    if (column !== undefined) addKnown(draft, column, share);
    else addOwn(draft, `${owners[i]}: ${key}`, share, priors[i].sd ** 2);
  });
  draft.typed += predicted.value;
}

/** Whose an unknown is, named as the fit names it. */
function ownerOf({ scope, role }: CheckUnknown, objects: PossibleRun["objects"], spindle: number, run: string): string {
  const object = role === undefined ? undefined : objects[role];
  if (scope === "part") return `part ${spindle}`;
  return object === undefined ? `run ${run}` : `object ${object}`;
}

function priorOf(unknown: CheckUnknown, objects: PossibleRun["objects"], known: Timeline["objects"]) {
  const object = unknown.role === undefined ? undefined : objects[unknown.role];
  return object === undefined ? unknown : priorOfUnknown(known.get(object) ?? null, unknown.key, unknown);
}

/**
 * The instrument's lasting error is known as far as it is from before, and new where the instrument is. A scale acts on
 * what is read, its own part included.
 */
function addLastingError(
  { columnById, estimate }: GroundOfRows,
  check: GeometricCheck,
  setup: Setup,
  draft: Draft,
): void {
  if (!setup.instrument) return;
  const error = lastingError(setup.instrument, useOfInstrument(check, setup, [draft.typed]));
  if (error.form === "none") return;
  const id = `instrument ${setup.instrument.id}: ${error.form}`;
  const column = columnById.get(id);
  const isScale = error.form === "scale";
  const share = isScale ? draft.typed / (1 - (column === undefined ? 0 : estimate.values[column])) : 1;
  if (column !== undefined) addKnown(draft, column, share);
  else addOwn(draft, id, share, (isScale ? error.sd : error.sdMm) ** 2);
}

/**
 * Standard uncertainty of one reading of the run as a person usually takes it, without what lasts and without what the
 * tip moves by hand: as the observations count it.
 */
export function readingFeel({ check, setup }: Pick<PossibleRun, "check" | "setup">): number {
  const { instrument } = setup;
  const feelOf = (entry: MeasuredEntry) => uncertaintyOfEntry({ factor: 1 }, setup, entry, 0);
  const one = feelOf(likelyEntry(instrument));
  const readsDifference = instrument?.measures === "length" && instrument.readsDifference === true;
  if (readsDifference || usualEntries(check, instrument) === 1) return one;
  return Math.hypot(one, check.oneTouches ? feelOf({ form: "value", value: 0 }) : one);
}

/** About the gap that a person chooses a block or sets a tool for, mm. */
const LIKELY_GAP = 0.5;
/** Between two leaves where it is not known which leaves there are, mm. */
const USUAL_STEP = 0.05;
const likelyByInstrument = new WeakMap<Instrument, MeasuredEntry>();

/** A gap is felt as goes and does not go; anything else is read as a number. */
function likelyEntry(instrument: Instrument | null): MeasuredEntry {
  if (instrument?.family !== "feeler" || instrument.measures !== "length") return { form: "value", value: 1 };
  const known = likelyByInstrument.get(instrument);
  if (known) return known;
  const stacks = stacksOf(instrument.leaves ?? { leavesMm: [], largestStack: 1 });
  const goes = stacksAround(stacks, LIKELY_GAP).below?.totalMm ?? LIKELY_GAP;
  const doesNotGo = stacks.find(({ totalMm }) => totalMm > goes + 1e-6)?.totalMm ?? goes + USUAL_STEP;
  const entry = { form: "interval", goes, doesNotGo } as const;
  likelyByInstrument.set(instrument, entry);
  return entry;
}

/** Shape of the places that the runs would touch: known as far as earlier readings there have told, else new. */
function addPlaces(ground: GroundOfRows, observations: readonly Observation[], drafts: readonly Draft[]): void {
  const { columnById, places, placeByKey, estimate } = ground;
  for (const place of placesTouched(observations, estimate.problem.modes, places)) {
    const id = `place ${place.key}`;
    const column = columnById.get(id);
    const before = placeByKey.get(place.key);
    const told = column === undefined && before ? toldBySingle(ground, before) : null;
    for (const { observation, weight } of place.touchedBy) {
      const draft = drafts[observation];
      if (column !== undefined) {
        addKnown(draft, column, weight);
        draft.typed += weight * estimate.values[column];
        continue;
      }
      if (told) {
        const { columns, coefficients } = told.row;
        for (let j = 0; j < columns.length; j++) addKnown(draft, columns[j], -weight * told.share * coefficients[j]);
      }
      addOwn(draft, id, weight, told?.variance ?? place.sd ** 2);
    }
  }
}

/**
 * A place that one earlier reading touched with the weight w is noise of that reading, sd² in all. Given the machine it
 * is then known to be w·r²/sd² of what that reading leaves over, with the variance r² − w²r⁴/sd². A bound alone is taken
 * to say nothing of its place (a hundredth of a standard deviation at most).
 */
function toldBySingle({ rowOfValues }: GroundOfRows, place: Place) {
  const row = rowOfValues.get(place.touchedBy[0].observation);
  if (!row) return null;
  const weight = place.touchedBy.reduce((sum, touch) => sum + touch.weight, 0);
  const share = (weight * place.sd ** 2) / row.sd;
  return { row, share, variance: place.sd ** 2 - share ** 2 };
}

function addKnown({ known }: Draft, column: number, coefficient: number): void {
  if (column >= 0 && coefficient !== 0) known.set(column, (known.get(column) ?? 0) + coefficient);
}

function addOwn({ own }: Draft, key: string, share: number, variance: number): void {
  own.set(key, { share: share + (own.get(key)?.share ?? 0), variance });
}
