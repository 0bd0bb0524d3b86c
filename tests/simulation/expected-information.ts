import { usualEntries } from "../../src/core/checks/check.ts";
import { covarianceTimes, eliminate } from "../../src/core/estimation/elimination.ts";
import { findingsOf } from "../../src/core/findings/catalogue.ts";
import { type Estimate, estimateProblem } from "../../src/core/fit/estimate.ts";
import { outlookFrom, type PossibleRun } from "../../src/core/fit/expected.ts";
import { lineariseProblem, predictObservation } from "../../src/core/fit/linearise.ts";
import { gradientOverVariables, presentScene } from "../../src/core/fit/present-scene.ts";
import { layOutProblem, type Problem } from "../../src/core/fit/problem.ts";
import type { Happening, Reading, Run, Timeline } from "../../src/core/fit/timeline.ts";
import type { Entry } from "../../src/core/instruments/entry.ts";
import type { MeasuringObject } from "../../src/core/instruments/object.ts";
import { bestValue } from "../../src/core/instruments/reading-uncertainty.ts";
import type { LayoutId } from "../../src/core/machine/description.ts";
import { type Machine, machineFromDescription } from "../../src/core/machine/machine.ts";
import { createRandom, type Random } from "../../src/core/numerics/random.ts";
import { possibleRuns, type RunInReach } from "../../src/core/planning/possible-runs.ts";
import { drawTruth, fullCatalogue, plannedTimeline, simulateReadings, workedBridge, workedGantry } from "./simulate.ts";

/** A machine with a past, what that comes to, and all that could be read next with what this workshop has. */
export interface LearntMachine {
  readonly machine: Machine;
  readonly timeline: Timeline;
  readonly estimate: Estimate;
  /** The truth of every variable of the estimate, by id. */
  readonly truth: ReadonlyMap<string, number>;
  readonly runs: readonly RunInReach[];
}

/** What a run was expected to leave of one function of the machine, and what its readings then left. */
export interface Brought {
  readonly run: RunInReach;
  /** A mode or a finding. */
  readonly about: string;
  /** Standard deviations, in the function's unit. */
  readonly before: number;
  readonly expected: number;
  readonly left: number;
}

const MINUTE = 60_000;
const TWO_WEEKS = 14 * 24 * 60 * MINUTE;

/**
 * A random machine with a random past: a part of the catalogue, a homing, and now and then a rocking carriage, a gap that
 * is only known to be wider than the leaves, two weeks without a reading, a move, a skim or a knock.
 */
export function learntMachine(layout: LayoutId, seed: number): LearntMachine {
  const random = createRandom(seed);
  const chance = (share: number) => random.uniform() < share;
  const description = layout === "moving-gantry" ? workedGantry : workedBridge;
  const machine = machineFromDescription({ ...description, details: { gridPitchMm: 50 } });
  const share = 0.1 + 0.4 * random.uniform();
  const plan = fullCatalogue().filter(() => chance(share));
  const pausesAt = chance(0.3) ? random.integer(plan.length + 1) : plan.length;
  const timed = plan.map((planned, i) => ({ ...planned, atMs: 10 * i * MINUTE + (i < pausesAt ? 0 : TWO_WEEKS) }));
  const bare = plannedTimeline(machine, timed);
  const end = (timed.at(-1)?.atMs ?? 0) + MINUTE;
  const sometime = () => (chance(0.3) ? end : Math.floor(random.uniform() * end));
  const happenings: Happening[] = [{ kind: "homed", id: "homed", at: sometime() }];
  const amount = 0.5 * random.normal();
  if (chance(0.3)) happenings.push({ kind: "moved", id: "moved", at: sometime(), adjuster: "mount.side", amount });
  if (chance(0.3)) happenings.push({ kind: "skimmed", id: "skimmed", at: sometime() });
  if (chance(0.2)) happenings.push({ kind: "knocked", id: "knocked", at: sometime(), members: ["beam"] });
  const rocking = chance(0.4) ? withRock(bare, 0.2 * random.uniform()) : bare;
  const objects = new Map(drawer.map((object) => [object.id, object]));
  const blank = layOutProblem(machine, { ...rocking, happenings, objects });
  const truth = drawTruth(blank, random);
  const read = readAll(blank, truth, random);
  const timeline = chance(0.4) ? withBound(read, random) : read;
  const estimate = estimateProblem(layOutProblem(machine, timeline));
  const instruments = new Map([...timeline.instruments].filter(([id]) => !(rare.has(id) && chance(0.4))));
  return {
    machine,
    timeline,
    estimate,
    truth: new Map(blank.variables.map(({ id }, i) => [id, truth[i]])),
    runs: possibleRuns(machine, { ...timeline, instruments }).own,
  };
}

/**
 * What the run's readings bring on the exact model: a truth for what is new to it is drawn, readings are made, and all is
 * fitted until it converges.
 */
export function broughtExactly(learnt: LearntMachine, run: RunInReach, random: Random): readonly Brought[] {
  const { estimate } = taken(learnt, run, "new", random);
  return compare(learnt, run, estimate.problem, estimate.factor, estimate);
}

/** The machine with one run more, read as its truth makes it. */
export function taken(learnt: LearntMachine, run: RunInReach, id: string, random: Random): LearntMachine {
  const { machine, estimate, timeline, truth } = learnt;
  const blank = layOutProblem(machine, takenAtEnd(timeline, run, id));
  const drawn = drawTruth(blank, random);
  const whole = drawn.map((value, i) => truth.get(blank.variables[i].id) ?? value);
  const read = new Map(readAll(blank, whole, random).readings.map((reading) => [reading.id, reading]));
  const past = new Set(timeline.readings.map((reading) => reading.id));
  const readings = blank.timeline.readings.map((reading) =>
    past.has(reading.id) ? reading : asRead(run, read.get(reading.id) as Reading),
  );
  const then = { ...blank.timeline, readings: asUsuallyHomed(estimate, run, readings, id) };
  const problem = layOutProblem(machine, then);
  return {
    ...learnt,
    timeline: then,
    estimate: estimateProblem(problem, valuesFrom(estimate, problem)),
    truth: new Map(blank.variables.map((variable, i) => [variable.id, whole[i]])),
  };
}

/**
 * What they bring where everything is linear: all readings as predicted, every row linearised at the estimate before. Not
 * for a past with bounds: what those are worth is not linear.
 */
export function broughtLinearly(learnt: LearntMachine, run: RunInReach): readonly Brought[] {
  const { machine, estimate, timeline } = learnt;
  const past = new Set(timeline.readings.map(({ id }) => id));
  let problem = layOutProblem(machine, takenAtEnd(timeline, run, "new"));
  // A scale that the instrument is out by acts on what is read, its own part included: three rounds settle that.
  for (let round = 0; round < 3; round++) {
    const values = valuesFrom(estimate, problem);
    const predicted = new Map<string, number>();
    for (const observation of problem.observations) {
      const value = predictObservation(problem, observation, values).value + (observation.station.nominal ?? 0);
      for (const { reading } of observation.values) predicted.set(reading.id, value);
    }
    const readings = problem.timeline.readings.map((reading) => {
      const value = predicted.get(reading.id);
      if (past.has(reading.id) || value === undefined) return reading;
      return asRead(run, { ...reading, entries: [{ form: "value", value }] });
    });
    problem = layOutProblem(machine, { ...problem.timeline, readings: asUsuallyHomed(estimate, run, readings, "new") });
  }
  const stages = lineariseProblem(problem, valuesFrom(estimate, problem), new Map());
  const skim = problem.modes[problem.modes.length - 1].skim ?? [];
  const keepToEnd = [...problem.present, ...skim].filter((column) => column >= 0);
  return compare(learnt, run, problem, eliminate({ variables: problem.variables.length, stages, keepToEnd }));
}

/** @param after where a finding is what it then is; left out where everything is linear, and it is what it was */
function compare(
  { machine, estimate }: LearntMachine,
  run: RunInReach,
  problem: Problem,
  factor: Estimate["factor"],
  after?: Estimate,
): readonly Brought[] {
  const functions = functionsOf(machine, estimate);
  const gradients = functions.map(({ gradient }) => gradient);
  const outlook = outlookFrom(estimate, gradients);
  const expected = outlook.after([run]);
  const column = new Map(problem.variables.map(({ id }, i) => [id, i]));
  const asThen = after && functionsOf(machine, after).map(({ gradient }) => gradient);
  return functions.map(({ about, gradient }, i) => {
    const same = asThen?.[i] ?? new Float64Array(problem.variables.length);
    if (!asThen) {
      gradient.forEach((g, j) => {
        if (g !== 0) same[column.get(estimate.problem.variables[j].id) as number] = g;
      });
    }
    const product = covarianceTimes(factor, same);
    const left = same.reduce((sum, g, j) => sum + g * product[j], 0);
    return {
      run,
      about,
      before: Math.sqrt(outlook.now[i]),
      expected: Math.sqrt(expected[i]),
      left: Math.sqrt(left),
    };
  });
}

/** Modes and findings with their gradients over all variables. */
function functionsOf(machine: Machine, estimate: Estimate) {
  const scene = presentScene(estimate);
  const modes = machine.modes.map(({ id }, i) => {
    const gradient = new Float64Array(estimate.problem.variables.length);
    gradient[estimate.problem.present[i]] = 1;
    return { about: id, gradient };
  });
  const findings = findingsOf(machine).flatMap((finding) =>
    finding.form === "linear"
      ? [{ about: finding.id, gradient: gradientOverVariables(estimate, finding.evaluate(scene).gradient) }]
      : [],
  );
  return [...modes, ...findings];
}

/** The timeline with the run at its end; what its stations read does not matter yet. */
export function takenAtEnd(timeline: Timeline, { check, setup, objects }: PossibleRun, id: string): Timeline {
  const { instrument, options } = setup;
  const times = [...timeline.readings, ...timeline.happenings].map(({ at }) => at);
  const at = Math.max(0, ...times) + MINUTE;
  const readings = check.stations(setup).map((station, i): Reading => {
    const entries = [{ form: "value", value: station.nominal ?? 1 }] as const;
    return { id: `${id} ${String(i).padStart(3, "0")}`, run: id, at, station: station.key, entries, withdrawn: null };
  });
  const run: Run = {
    id,
    check: check.id,
    at,
    instrument: instrument?.id ?? null,
    objects,
    options,
    conditions: {},
    factor: 1,
    withdrawn: null,
  };
  return { ...timeline, runs: [...timeline.runs, run], readings: [...timeline.readings, ...readings] };
}

function valuesFrom({ problem, values }: Estimate, { variables }: Problem): Float64Array {
  const known = new Map(problem.variables.map(({ id }, i) => [id, values[i]]));
  return Float64Array.from(variables, ({ id, start }) => known.get(id) ?? start);
}

/** Readings of the geometric checks as the truth makes them; what is no geometry stays as it was typed. */
function readAll(problem: Problem, truth: Float64Array, random: Random): Timeline {
  const read = simulateReadings(problem, truth, random);
  const typed = new Map(problem.timeline.readings.map((reading) => [reading.id, reading]));
  const readings = read.readings.map((reading) => (reading.entries[0] ? reading : (typed.get(reading.id) as Reading)));
  return { ...read, readings };
}

/** A simulated number as a person would type it: leaves as what goes and what does not, two gaps or lengths as two. */
function asRead({ check, setup }: RunInReach, reading: Reading): Reading {
  const value = bestValue(reading.entries[0] as Exclude<Entry, { form: "verdict" }>);
  const byLeaves = setup.instrument.family === "feeler";
  const one = (gap: number): Entry => (byLeaves ? leavesAround(gap) : { form: "value", value: gap });
  const touching: Entry = { form: "value", value: 0 };
  const readsDifference = setup.instrument.measures === "length" && setup.instrument.readsDifference;
  if (readsDifference || usualEntries(check, setup.instrument) === 1) return { ...reading, entries: [one(value)] };
  if (!check.oneTouches) return { ...reading, entries: [one(1 + value), one(1)] };
  return { ...reading, entries: value > 0 ? [one(value), touching] : [touching, one(-value)] };
}

function leavesAround(gap: number): Entry {
  const leaf = 0.05;
  const goes = Math.floor(gap / leaf) * leaf;
  return { form: "interval", goes, doesNotGo: goes + leaf };
}

/**
 * What homing again and again tells of the scatter of homings hangs on what is read. Here the readings scatter as homings
 * are known to, so that the scatter stays what it was.
 */
function asUsuallyHomed(
  { problem }: Estimate,
  { check }: RunInReach,
  readings: readonly Reading[],
  id: string,
): readonly Reading[] {
  if (check.id !== "home-repeat" || problem.homingSd === 0) return readings;
  const own = readings.filter(({ run }) => run === id);
  const { Lx, xm } = problem.machine.dimensions;
  const step = problem.homingSd * ((0.95 * Lx - xm) / 1000);
  return readings.map((reading) => {
    const n = own.indexOf(reading);
    if (n < 0) return reading;
    const value = [-step, step, -step, step, 0][n];
    return { ...reading, entries: [{ form: "value", value }] };
  });
}

/** A push that stays on release: the tip is that much less certain wherever it is read. */
function withRock(timeline: Timeline, staysMm: number): Timeline {
  const run: Run = {
    id: "push",
    check: "push-and-release",
    at: 0,
    instrument: "dial",
    objects: {},
    options: {},
    conditions: {},
    factor: 1,
    withdrawn: null,
  };
  const entries = [{ form: "value", value: staysMm }] as const;
  const reading = { id: "push", run: "push", at: 0, station: "X, stays", entries, withdrawn: null };
  return { ...timeline, runs: [run, ...timeline.runs], readings: [reading, ...timeline.readings] };
}

/** One gap by leaves becomes a gap of which only one side is known. */
function withBound(timeline: Timeline, random: Random): Timeline {
  const gaps = timeline.readings.filter(({ entries: [entry] }) => entry.form === "interval");
  if (gaps.length === 0) return timeline;
  const chosen = random.pick(gaps);
  const readings = timeline.readings.map((reading): Reading => {
    const [entry] = reading.entries;
    if (reading !== chosen || entry.form !== "interval") return reading;
    const bound: Entry =
      random.uniform() < 0.5 ? { form: "atLeast", bound: entry.goes } : { form: "atMost", bound: entry.doesNotGo };
    return { ...reading, entries: [bound] };
  });
  return { ...timeline, readings };
}

/** Instruments that not every workshop has. */
const rare: ReadonlySet<string> = new Set(["dial", "test indicator", "touch plate", "rule", "level"]);

const drawer = [
  { id: "square", kind: "square", family: "square", name: "square", priors: {} },
  { id: "straightedge", kind: "straightedge", family: "straightedge", name: "straightedge", priors: {} },
  { id: "block", kind: "block", family: "block", name: "block", priors: {} },
  { id: "cutter", kind: "cutter", family: "cutter", name: "cutter", diameterMm: 6, priors: {} },
  {
    id: "v-cutter",
    kind: "v-cutter",
    family: "cutter",
    name: "V cutter",
    includedAngleDeg: 60,
    priors: { angle: { mean: 0.4, sd: 0.3 } },
  },
] as unknown as readonly MeasuringObject[];
