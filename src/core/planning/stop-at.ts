import { optionOf } from "../checks/check.ts";
import { type Estimate, stateFrom } from "../fit/estimate.ts";
import { measuringRun } from "../fit/observations.ts";
import { presentScene } from "../fit/present-scene.ts";
import type { Run } from "../fit/timeline.ts";
import { type Instrument, type Range, readBothWays } from "../instruments/instrument.ts";
import { stackLimits, stacksOf } from "../instruments/leaves.ts";
import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import type { Demand } from "../work/demand.ts";
import type { StopAt } from "./plan.ts";
import { possibleRuns, type RunOptions } from "./possible-runs.ts";
import { type Aim, aimOf } from "./stop-at-aim.ts";
import { type BandOfAmounts, bandOfAmounts, scatterOfMove } from "./stop-at-band.ts";
import { type GaugeRun, type GaugeStation, gaugeStations, type SceneAt } from "./stop-at-reading.ts";

/** One move in its turn, and what must not be spoilt by stopping a little off. */
export interface StopQuestion {
  readonly estimate: Estimate;
  readonly move: MoveAcross;
  readonly demands: readonly Demand[];
  /** How far the machine has been built. */
  readonly stage?: RunOptions["stage"];
}

/** States over the machine's parameters; where the bed has been skimmed, its surface stays as it was cut. */
export interface MoveAcross {
  readonly adjuster: Adjuster;
  readonly amount: number;
  readonly before: Float64Array;
  readonly after: Float64Array;
}

/** Checks that a person can read with a joint of the machine open in front of them, without a cut. */
const byHand: ReadonlySet<string> = new Set([
  "gap-under-beam",
  "upright-gap",
  "beam-upright",
  "beam-to-line",
  "line-along-x",
  "line-along-y",
  "stop-gaps",
  "rail-wind",
  "rail-spacing",
  "frame-diagonals",
  "level-ride",
  "tram-sweep",
  "turnaround",
  "square-sweep",
  "upright-sweep",
  "bed-touch",
]);

/**
 * Checks that show where the beam came to stand after a homing, its drives on: lengths, or two places along the beam
 * against one another, since a home that was moved shifts the place of Y's zero as well. Gaps that are felt with the
 * drives free say nothing of a home. Marks of the machine's own come before a line on the bed, whose own yaw must be known.
 */
const afterHoming: readonly string[] = ["hole-rectangle", "line-along-x"];

/** Marks for a proof are pricked: that takes no cut, and the jaws of calipers sit in holes only. */
function suitsAfterHoming({ check, setup }: GaugeRun): boolean {
  if (check.id !== "hole-rectangle") return afterHoming.includes(check.id);
  return optionOf(check, setup, "marks") === "pricks" && setup.instrument?.family !== "calipers";
}

/** A move shows on the gauge when it changes the reading by this many times the reading's uncertainty. */
const SHOWS_FROM = 2;

/**
 * The reading at which the move is right, at the station that shows it best, and the readings between which one may
 * stop; null where no gauge at hand shows the move, or nothing is left to a gauge: a number that is typed, a skim.
 *
 * A run that has been taken goes on before one is begun, a check that has to be read again anyway before another; then
 * the change over its uncertainty for every minute of the check decides, and the catalogue's order. In a new run with a
 * zero of its own the reading counts against another station, and `reads`, `from` and `to` are what the station reads
 * more than that one; or it is set up and read before the joint is opened, and counts from there. All three are the numbers
 * that a person types, nominal included, in the check's core unit.
 *
 * A move that shows only after a homing is proved by a run that is begun after it: an older one was read in another homing.
 */
export function stopAt({ estimate, move, demands, stage = "cutting" }: StopQuestion): StopAt | null {
  const { adjuster, amount, before, after } = move;
  if (amount === 0 || adjuster.kind === "skim" || (adjuster.kind === "add" && adjuster.sd === 0)) return null;
  const sceneAt = sceneOf(estimate);
  const band = bandOfMove(move, demands, sceneAt);
  const aim = aimOf(estimate, move, demands);
  const candidatesOf = (gauge: GaugeRun) =>
    bestOfRun(gaugeStations(estimate, sceneAt, gauge), gauge, [before, after], aim).flatMap((best) => {
      const stop = stopOf(gauge, best, move, band);
      return stop ? [{ stop, worth: best.worth / gauge.check.words.minutes }] : [];
    });
  const again: readonly string[] = adjuster.readAgain?.checks ?? [];
  if (adjuster.homesTo !== undefined) {
    const gauges = runsToBegin(estimate, stage).filter(suitsAfterHoming);
    const found = afterHoming.map((id) =>
      gauges.filter(({ check }) => check.id === id).flatMap((gauge) => candidatesOf({ ...gauge, homesFirst: true })),
    );
    return bestOf(found.find((candidates) => candidates.length > 0) ?? []);
  }
  const choose = (gauges: readonly GaugeRun[]): StopAt | null => {
    const suited = gauges.filter(({ check }) => byHand.has(check.id) || again.includes(check.id));
    for (const wanted of [true, false]) {
      const found = suited.filter(({ check }) => again.includes(check.id) === wanted).flatMap(candidatesOf);
      if (found.length > 0) return bestOf(found);
    }
    return null;
  };
  return choose(runsThatGoOn(estimate)) ?? choose(runsToBegin(estimate, stage));
}

function bestOf(found: readonly { readonly stop: StopAt; readonly worth: number }[]): StopAt | null {
  const [first] = found;
  return first === undefined ? null : found.reduce((best, other) => (other.worth > best.worth ? other : best)).stop;
}

/** Where the move stands when a part of it is done, the whole way being from `before` to `after`. */
export function stateAtAmount({ amount, before, after }: Omit<MoveAcross, "adjuster">, reached: number): Float64Array {
  const share = reached / amount;
  return Float64Array.from(before, (value, i) => value + share * (after[i] - value));
}

/** The reading of a stop with the machine in some state, as the gauge shows it. */
export function readingAtStop(estimate: Estimate, stop: StopAt, state: Float64Array): number {
  const { check, setup } = stop;
  const sceneAt = sceneOf(estimate);
  const gauge = runsThatGoOn(estimate).find(({ run }) => run !== null && run === stop.run) ?? {
    ...{ check, setup, run: null, factor: 1, homesFirst: stop.homesFirst },
    objects: runsToBegin(estimate, "cutting").find((run) => run.check === check)?.objects ?? {},
  };
  const stations = gaugeStations(estimate, sceneAt, gauge);
  const readsAt = (key: string) => stations.find(({ station }) => station.key === key)?.reads(state) ?? 0;
  const zero = stop.setUp === "before the move" ? stop.readsBefore : 0;
  return readsAt(stop.station.key) - (stop.against ? readsAt(stop.against.key) : 0) - zero;
}

function sceneOf(estimate: Estimate): SceneAt {
  const { problem } = estimate;
  const { skim } = presentScene(estimate);
  const cutIn = problem.modes[problem.modes.length - 1].skim;
  const skimState = skim && cutIn && stateFrom(cutIn, estimate.values);
  return (state) => ({
    machine: problem.machine,
    state,
    size: 0,
    skim: skimState && { state: skimState, column: 0 },
  });
}

function bandOfMove(move: MoveAcross, demands: readonly Demand[], sceneAt: SceneAt): BandOfAmounts {
  const { adjuster, amount, before, after } = move;
  const { machine } = sceneAt(before);
  const changeOf = (id: string) => {
    const index = machine.parameterIndex.get(id);
    return index === undefined ? 0 : (after[index] - before[index]) / amount;
  };
  const valuesAt = (demand: Demand, state: Float64Array) => demand.samples(sceneAt(state)).map(({ value }) => value);
  return bandOfAmounts(
    { amount, sd: scatterOfMove(adjuster, changeOf), noFurther: adjuster.kind === "assign" },
    demands.map((demand) => ({ demand, before: valuesAt(demand, before), after: valuesAt(demand, after) })),
  );
}

/** Of every check, set up in one way with one instrument, the latest run that stands; none that had to be scaled. */
function runsThatGoOn({ problem }: Estimate): readonly GaugeRun[] {
  const { machine, timeline, observations } = problem;
  const wasRead = new Set(observations.map(({ run }) => run.id));
  const latest = new Map<string, Run>();
  for (const run of timeline.runs) {
    if (run.withdrawn !== null || !wasRead.has(run.id) || Math.abs(run.factor) !== 1) continue;
    const key = JSON.stringify([run.check, Object.entries(run.options).sort()]);
    const known = latest.get(key);
    if (!known || known.at <= run.at) latest.set(key, run);
  }
  return [...latest.values()].flatMap((run): GaugeRun[] => {
    const measuring = measuringRun(machine, timeline, run);
    if (!measuring) return [];
    const { check, setup } = measuring;
    return [{ check, setup, objects: run.objects, run: run.id, factor: run.factor, homesFirst: false }];
  });
}

function runsToBegin({ problem }: Estimate, stage: RunOptions["stage"]): readonly GaugeRun[] {
  const { own } = possibleRuns(problem.machine, problem.timeline, stage === undefined ? {} : { stage });
  return own.map(({ check, setup, objects }) => ({
    ...{ check, setup, objects },
    ...{ run: null, factor: 1, homesFirst: false },
  }));
}

/** A station, or two of which one counts against the other, and how well the move shows there. */
interface Shown {
  readonly main: GaugeStation;
  readonly against: GaugeStation | null;
  /** The station counts from what it read before the joint was opened. */
  readonly fromBefore: boolean;
  readonly changesBy: number;
  /** Of the reading, and of what else in the machine it hangs on. */
  readonly uncertainty: number;
  /** Change over uncertainty, less where it has to be read twice, and that of what the move is for counted in. */
  readonly worth: number;
}

/** Of an unknown in a reading: less is arithmetic. */
const LEAST_SHARE = 1e-9;
/** To set up before the joint is opened, and to read twice, must be worth as much more (our choice). */
const WORTH_OF_READING_TWICE = 1 / 2;

/**
 * The station of a run that shows the move best. A run to be begun has a free zero, or an object that lies somehow: then
 * two stations are held against one another, or one against itself before the joint is opened.
 */
function bestOfRun(
  stations: readonly GaugeStation[],
  gauge: GaugeRun,
  [before, after]: readonly [Float64Array, Float64Array],
  aim: Aim,
): readonly Shown[] {
  const changes = stations.map(({ reads }) => reads(after) - reads(before));
  const left = aim.leftIn(stations);
  const shown = (i: number, j: number | null): Shown => {
    const [main, against] = [stations[i], j === null ? null : stations[j]];
    const changesBy = Math.abs(changes[i] - (j === null ? 0 : changes[j]));
    const ofMachine = gauge.run === null ? left(i, j) : 0;
    const uncertainty = Math.sqrt(varianceOf(gauge, main, against) + ofMachine);
    return { main, against, fromBefore: false, changesBy, uncertainty, worth: changesBy / uncertainty };
  };
  const shows = ({ changesBy, uncertainty }: Shown) => changesBy >= SHOWS_FROM * uncertainty;
  if (gauge.run !== null) {
    const singles = stations.map((_, i) => shown(i, null)).filter(shows);
    if (singles.length === 0) return [];
    return [singles.reduce((best, one) => (best.changesBy >= one.changesBy ? best : one))];
  }
  // The one that moves more is read; of two that move alike, the first.
  const isMain = (i: number, j: number) =>
    i !== j && (Math.abs(changes[i]) > Math.abs(changes[j]) || (changes[i] === -changes[j] && i < j));
  const candidates = stations.flatMap((main, i): Shown[] => [
    shown(i, null),
    ...stations.flatMap((_, j) => (isMain(i, j) ? [shown(i, j)] : [])),
    ...(gauge.homesFirst ? [] : [twice(main, Math.abs(changes[i]), aim.itself(changes[i]))]),
  ]);
  const clear = candidates.filter(shows);
  return clear.length === 0 ? [] : [clear.reduce((best, one) => (best.worth >= one.worth ? best : one))];
}

/** Read before and after, what was set up in between left standing: all that stays alike drops out. */
function twice(main: GaugeStation, changesBy: number, ofMachine: number): Shown {
  const ofGauge = 2 * main.ownVariance;
  const worth = (WORTH_OF_READING_TWICE * changesBy) / Math.sqrt(ofGauge + ofMachine);
  return { main, against: null, fromBefore: true, changesBy, uncertainty: Math.sqrt(ofGauge), worth };
}

function varianceOf({ run }: GaugeRun, main: GaugeStation, against: GaugeStation | null): number {
  let variance = main.ownVariance + (against?.ownVariance ?? 0);
  const shares = new Map<string, { share: number; sd: number }>();
  const add = (station: GaugeStation, sign: 1 | -1) => {
    for (const { id, share, sd, isEstimated } of station.unknowns) {
      if (run !== null && isEstimated) continue;
      shares.set(id, { share: (shares.get(id)?.share ?? 0) + sign * share, sd });
    }
  };
  add(main, 1);
  if (against) add(against, -1);
  for (const { share, sd } of shares.values()) variance += (share * sd) ** 2;
  return variance;
}

function stopOf(gauge: GaugeRun, shown: Shown, move: MoveAcross, band: BandOfAmounts): StopAt | null {
  const { check, setup, run } = gauge;
  const { main, against, fromBefore } = shown;
  const rawAt = (state: Float64Array) => main.reads(state) - (against?.reads(state) ?? 0);
  const readsBefore = rawAt(move.before);
  const changesBy = rawAt(move.after) - readsBefore;
  const readsAt = (state: Float64Array) => rawAt(state) - (fromBefore ? readsBefore : 0);
  const reads = readsAt(move.after);
  const isFree = main.unknowns.some(({ isSetUp, share }) => isSetUp && Math.abs(share) > LEAST_SHARE);
  const range = rangeOfReading(gauge, against !== null || (fromBefore && isFree));
  const raw = fromBefore && !isFree ? [readsBefore, readsBefore + reads] : [reads];
  if (raw.some((reading) => reading < range.from || reading > range.to)) return null;
  const ends = [band.from, band.to].map((reached) => readsAt(stateAtAmount(move, reached)));
  const zero = fromBefore && !isFree ? readsBefore : 0;
  const from = Math.max(range.from - zero, Math.min(...ends, reads));
  const to = Math.min(range.to - zero, Math.max(...ends, reads));
  const setUp = fromBefore ? "before the move" : run !== null && isFree && against === null ? "as it stood" : "anew";
  return {
    ...{ check, setup, run, station: main.station, against: against?.station ?? null, reads, from, to },
    ...{ setUp, homesFirst: gauge.homesFirst, readsBefore, changesBy },
  };
}

/** What the gauge can show: a gap is never thinner than the thinnest leaf, a difference is as long as the range. */
function rangeOfReading({ check, setup: { instrument } }: GaugeRun, isDifference: boolean): Range {
  const whole = instrument
    ? rangeOfInstrument(check.bothWays ? readBothWays(instrument) : instrument)
    : { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
  if (!isDifference && check.entries === undefined) return whole;
  const width = whole.to - whole.from;
  return { from: -width, to: width };
}

function rangeOfInstrument(instrument: Instrument): Range {
  const everything = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
  if (instrument.measures === "slope") return instrument.rangeMmPerM ?? everything;
  if (instrument.measures !== "length") return everything;
  const { leaves, rangeMm = everything } = instrument;
  if (!leaves || leaves.leavesMm.length === 0) return rangeMm;
  const { thinnestMm, thickestMm } = stackLimits(stacksOf(leaves));
  return { from: Math.max(rangeMm.from, thinnestMm), to: Math.min(rangeMm.to, thickestMm) };
}
