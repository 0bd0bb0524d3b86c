import { describe, expect, it } from "vitest";
import {
  drawTruth,
  fullCatalogue,
  type PlannedRun,
  plannedTimeline,
  simulateReadings,
  sixChecks,
  workedMachine,
} from "../../../tests/simulation/simulate.ts";
import { instrumentForFamilies } from "../../../tests/simulation/workshop.ts";
import { checkById } from "../checks/catalogue.ts";
import { type GeometricCheck, usualEntries } from "../checks/check.ts";
import { covarianceTimes, eliminate } from "../estimation/elimination.ts";
import type { Entry } from "../instruments/entry.ts";
import type { Machine } from "../machine/machine.ts";
import { createRandom } from "../numerics/random.ts";
import { type Estimate, estimateProblem } from "./estimate.ts";
import { expectedVariances, type PossibleRun } from "./expected.ts";
import { lineariseProblem } from "./linearise.ts";
import { layOutProblem, type Problem } from "./problem.ts";
import type { Reading, Timeline } from "./timeline.ts";

function knownMachine(machine: Machine, seed: number) {
  const blank = layOutProblem(machine, plannedTimeline(machine, sixChecks()));
  const random = createRandom(seed);
  const truth = drawTruth(blank, random);
  const timeline = simulateReadings(blank, truth, random);
  return { timeline, estimate: estimateProblem(layOutProblem(machine, timeline)), truth, variables: blank.variables };
}

function possibleRun(machine: Machine, planned: PlannedRun): PossibleRun {
  const check = checkById(planned.check) as GeometricCheck;
  const setup = { machine, options: planned.options ?? {}, instrument: instrumentForFamilies(check.instruments) };
  return { check, setup, objects: planned.objects ?? {} };
}

/** The timeline with the possible run really taken at its end; what was read does not matter yet. */
function withRun(timeline: Timeline, { check, setup, objects }: PossibleRun): Timeline {
  const instrument = setup.instrument as NonNullable<typeof setup.instrument>;
  const at = Math.max(...timeline.readings.map((reading) => reading.at)) + 1;
  const entry = (value: number): Entry =>
    instrument.family === "feeler" ? { form: "interval", goes: 0.5, doesNotGo: 0.55 } : { form: "value", value };
  const run = { id: "new", check: check.id, at, instrument: instrument.id, objects, options: setup.options };
  const readings = check.stations(setup).map((station, i): Reading => {
    const first = entry(station.nominal ?? 1);
    const entries = usualEntries(check, instrument) === 2 ? ([first, entry(0)] as const) : ([first] as const);
    return { id: `new ${i}`, run: "new", at, station: station.key, entries, withdrawn: null };
  });
  return {
    ...timeline,
    runs: [...timeline.runs, { ...run, conditions: {}, factor: 1, withdrawn: null }],
    readings: [...timeline.readings, ...readings],
  };
}

/** The simulated difference as the two gaps or lengths that a person would read where the check asks for two. */
function asTwo({ check, setup }: PossibleRun, reading: Reading): Reading {
  const [entry] = reading.entries;
  if (usualEntries(check, setup.instrument) === 1 || entry.form !== "value") return reading;
  const byLeaves = setup.instrument?.family === "feeler";
  const gap = (middle: number): Entry =>
    byLeaves ? { form: "interval", goes: middle - 0.025, doesNotGo: middle + 0.025 } : { form: "value", value: middle };
  return { ...reading, entries: [gap(1 + entry.value), gap(1)] };
}

function gradientsOfModes({ problem }: Estimate): Float64Array[] {
  return problem.machine.modes.map((_, mode) => {
    const g = new Float64Array(problem.variables.length);
    g[problem.present[mode]] = 1;
    return g;
  });
}

/** Variances of the modes with all rows linearised at the given values. */
function variancesAt(problem: Problem, values: Float64Array): number[] {
  const stages = lineariseProblem(problem, values, new Map());
  const factor = eliminate({ variables: problem.variables.length, stages, keepToEnd: [...problem.present] });
  return problem.machine.modes.map((_, mode) => {
    const g = new Float64Array(problem.variables.length);
    g[problem.present[mode]] = 1;
    return covarianceTimes(factor, g)[problem.present[mode]];
  });
}

/** Readings beside one another that share what one earlier row was told of two places: theirs is counted twice. */
const nearly = new Set(["tram-sweep", "groove-widths", "gap-under-beam"]);

describe.each(["moving-gantry", "fixed-bridge"] as const)("what a check would bring on a %s", (layout) => {
  const machine = workedMachine(layout);
  // Homing again and again also tells how much a homing leaves to chance: that hangs on what is read.
  const plans = fullCatalogue().filter(
    ({ check }) => check !== "home-repeat" && checkById(check)?.layouts.includes(layout),
  );

  it("is exactly what its readings bring where everything is linear, over the whole catalogue", () => {
    const { timeline, estimate } = knownMachine(machine, 1);
    const known = new Map(estimate.problem.variables.map(({ id }, i) => [id, estimate.values[i]]));
    for (const planned of plans) {
      const possible = possibleRun(machine, planned);
      const problem = layOutProblem(machine, withRun(timeline, possible));
      const values = Float64Array.from(problem.variables, ({ id, start }) => known.get(id) ?? start);
      const then = variancesAt(problem, values);
      const slack = nearly.has(planned.check) ? 0.02 : 1e-6;
      expectedVariances(estimate, possible, gradientsOfModes(estimate)).forEach(({ now, after }, mode) => {
        const ratio = Math.sqrt(after / then[mode]);
        expect(Math.abs(ratio - 1), `${planned.check}, ${machine.modes[mode].id}`).toBeLessThan(slack);
        expect(after).toBeLessThanOrEqual(now);
      });
    }
  });

  it("is within a tenth of what it then brings on the exact model, for random machines", () => {
    for (const seed of [2, 3, 4]) {
      const { timeline, estimate, truth, variables } = knownMachine(machine, seed);
      const known = new Map(variables.map(({ id }, i) => [id, truth[i]]));
      const random = createRandom(100 + seed);
      // Another part of the catalogue for each machine, so that all of it takes its turn.
      for (const planned of plans.filter((_, i) => i % 3 === seed - 2)) {
        const possible = possibleRun(machine, planned);
        const blank = layOutProblem(machine, withRun(timeline, possible));
        const drawn = drawTruth(blank, random);
        const whole = drawn.map((value, i) => known.get(blank.variables[i].id) ?? value);
        const taken = simulateReadings(blank, whole, random);
        const before = new Map(timeline.readings.map((reading) => [reading.id, reading]));
        const readings = taken.readings.map((reading) => before.get(reading.id) ?? asTwo(possible, reading));
        const after = estimateProblem(layOutProblem(machine, { ...taken, readings }));
        expectedVariances(estimate, possible, gradientsOfModes(estimate)).forEach((expected, mode) => {
          const then = Math.sqrt(after.covariance[mode * machine.parameters.length + mode]);
          const words = `${planned.check}, ${machine.modes[mode].id}, machine ${seed}`;
          expect(Math.sqrt(expected.after) / then, words).toBeGreaterThan(0.9);
          expect(Math.sqrt(expected.after) / then, words).toBeLessThan(1.1);
        });
      }
    }
  });
});
