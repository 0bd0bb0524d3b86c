import type { Entry } from "../instruments/entry.ts";
import { bestValue } from "../instruments/reading-uncertainty.ts";
import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import { adjustersOf } from "../machine/adjusters/catalogue.ts";
import type { Scene } from "../machine/kinematics.ts";
import { type Machine, nominalState } from "../machine/machine.ts";
import { type MeasuringRun, measuringRun, uncertaintyOfEntry } from "./observations.ts";
import { stationFromKey } from "./station-key.ts";
import type { Happening, MoveGauge, Timeline } from "./timeline.ts";

type Moved = Extract<Happening, { kind: "moved" }>;

/** How far a joint went when it was made fast, in its adjuster's unit: what this user's hands left to chance once. */
export interface Slip {
  readonly move: Moved;
  readonly amount: number;
  /** 1 for what the last tightening did; less for what a later look at the gauge could still put right. */
  readonly weight: number;
}

/** What is usual counts like this many slips of the user's own (our choice: three or four moves begin to tell). */
export const USUAL_COUNTS_LIKE = 4;

/**
 * Between loose and nipped the joint slips too, but the gauge is read then and the joint can be tapped back: four such
 * slips count like one of the last tightening (our choice).
 */
export const NIPPING_WEIGHT = 0.25;

/** A gauge that is blunter than this many usual scatters tells of itself and not of the hands (our choice). */
const BLUNT = 2;

/**
 * Adjusters as they are for this user after all of the timeline: with the user's own figures, and with the scatter that
 * the gauge has shown at moves of each.
 */
export function adjustersForTimeline(machine: Machine, timeline: Timeline): readonly Adjuster[] {
  const adjusters = adjustersOf(machine, timeline.adjusterChanges);
  const slips = slipsOf(machine, timeline, adjusters);
  return adjusters.map((adjuster) => withScatter(adjuster, slips));
}

/** Each adjuster as it was known when a move was made: only moves before it have taught anything. */
export function adjustersAtMoves(machine: Machine, timeline: Timeline): (move: Moved) => Adjuster | undefined {
  const adjusters = adjustersOf(machine, timeline.adjusterChanges);
  const byId = new Map(adjusters.map((adjuster) => [adjuster.id, adjuster]));
  const slips = slipsOf(machine, timeline, adjusters);
  return (move) => {
    const adjuster = byId.get(move.adjuster);
    const before = slips.filter(({ move: { at, id } }) => at < move.at || (at === move.at && id < move.id));
    return adjuster && withScatter(adjuster, before);
  };
}

/** sd² = (ν₀·sd₀² + Σ w·d²)/(ν₀ + Σ w), with the usual sd₀ counting like ν₀ slips d of weight 1. */
function withScatter(adjuster: Adjuster, slips: readonly Slip[]): Adjuster {
  let weight = USUAL_COUNTS_LIKE;
  let squares = USUAL_COUNTS_LIKE * adjuster.sd ** 2;
  for (const slip of slips) {
    if (slip.move.adjuster !== adjuster.id) continue;
    weight += slip.weight;
    squares += slip.weight * slip.amount ** 2;
  }
  return weight === USUAL_COUNTS_LIKE ? adjuster : { ...adjuster, sd: Math.sqrt(squares / weight) };
}

/** All slips that a gauge has shown, in the order of the moves. */
export function slipsOf(machine: Machine, timeline: Timeline, adjusters: readonly Adjuster[]): readonly Slip[] {
  const runs = new Map(timeline.runs.map((run) => [run.id, run]));
  return timeline.happenings.flatMap((move) => {
    if (move.kind !== "moved" || move.gauge === undefined) return [];
    const adjuster = adjusters.find(({ id }) => id === move.adjuster);
    const run = runs.get(move.gauge.run);
    // What is set to a number, or taken up anew, has no screws that slip.
    if (adjuster?.kind !== "add" || adjuster.sd === 0 || !run || run.withdrawn !== null) return [];
    const measuring = measuringRun(machine, timeline, run);
    return measuring === null ? [] : slipsOfMove(timeline, move, adjuster, measuring);
  });
}

function slipsOfMove(timeline: Timeline, move: Moved, adjuster: Adjuster, measuring: MeasuringRun): readonly Slip[] {
  const gauge = move.gauge as MoveGauge;
  const perUnit = sensitivity(measuring, gauge.station, adjuster);
  const { loose, nipped } = gauge;
  const final = isTakenBack(timeline, move, gauge) ? null : gauge.final;
  const slip = (from: Entry | null, to: Entry | null, weight: number): readonly Slip[] => {
    const [before, after] = [shownBy(from, measuring), shownBy(to, measuring)];
    if (before === null || after === null) return [];
    if (Math.hypot(before.sd, after.sd) > BLUNT * adjuster.sd * Math.abs(perUnit)) return [];
    return [{ move, amount: (after.value - before.value) / perUnit, weight }];
  };
  // Who never read it nipped could put nothing right in between.
  if (nipped === null) return slip(loose, final, 1);
  return [...slip(loose, nipped, NIPPING_WEIGHT), ...slip(nipped, final, 1)];
}

/** What one unit of the amount does to the reading at the station, on the machine as it is meant to be. */
function sensitivity({ check, setup }: MeasuringRun, key: string, adjuster: Adjuster): number {
  const { machine } = setup;
  const station = stationFromKey(check, setup, key);
  if (station === null) return 0;
  const unknowns = check.unknowns(setup, station);
  const size = machine.parameters.length + unknowns.length;
  const scene: Scene = { machine, state: nominalState(machine), size, skim: null };
  const { gradient } = check.predict(scene, station, setup, (key) => {
    const own = new Float64Array(size);
    const index = unknowns.findIndex((unknown) => unknown.key === key);
    own[machine.parameters.length + index] = 1;
    return { value: unknowns[index].mean, gradient: own };
  });
  let sum = 0;
  for (const [mode, effect] of Object.entries(adjuster.effect)) {
    const index = machine.parameterIndex.get(mode);
    if (index !== undefined) sum += effect * gradient[index];
  }
  return sum;
}

/** What the gauge showed, in the formula's terms; null where it was not read, or only a bound on it. */
function shownBy(
  entry: Entry | null,
  { run, setup }: MeasuringRun,
): { readonly value: number; readonly sd: number } | null {
  if (entry === null || (entry.form !== "value" && entry.form !== "interval")) return null;
  return { value: run.factor * bestValue(entry), sd: uncertaintyOfEntry(run, setup, entry, 0) };
}

/** The last reading is one of the run's too: where that was withdrawn, it was no reading here either. */
function isTakenBack({ readings }: Timeline, { at }: Moved, { run, station, final }: MoveGauge): boolean {
  if (final === null) return false;
  return readings.some(
    (reading) =>
      reading.withdrawn !== null &&
      reading.run === run &&
      reading.station === station &&
      reading.at >= at &&
      JSON.stringify(reading.entries) === JSON.stringify([final]),
  );
}
