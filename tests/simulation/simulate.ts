import { checkById } from "../../src/core/checks/catalogue.ts";
import type { GeometricCheck } from "../../src/core/checks/check.ts";
import { ownHomingVariance, predictObservation } from "../../src/core/fit/linearise.ts";
import type { Observation } from "../../src/core/fit/observations.ts";
import type { Problem } from "../../src/core/fit/problem.ts";
import type { Reading, Run, Timeline } from "../../src/core/fit/timeline.ts";
import type { Entry } from "../../src/core/instruments/entry.ts";
import type { LayoutId, MachineDescription } from "../../src/core/machine/description.ts";
import { type Machine, machineFromDescription } from "../../src/core/machine/machine.ts";
import type { Random } from "../../src/core/numerics/random.ts";
import { instrumentForFamilies, simulatedInstruments } from "./workshop.ts";

/** What a simulated user does: one run of a check, with the options that make it informative. */
export interface PlannedRun {
  readonly check: string;
  readonly options?: Readonly<Record<string, string | number>>;
  readonly objects?: Readonly<Record<string, string>>;
  readonly atMs?: number;
}

export const workedGantry: MachineDescription = {
  name: "worked gantry",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 500, z: 70 },
  railPlanesMm: { left: -90, right: 690 },
  wheelbaseMm: 140,
  beamCentreMm: 105,
  toolFromBeamMm: -75,
};

export const workedBridge: MachineDescription = {
  name: "worked bridge",
  layout: "fixed-bridge",
  travelMm: { x: 400, y: 350, z: 80 },
  railPlanesMm: { left: -60, right: 460 },
  wheelbaseMm: 200,
  beamCentreMm: 125,
  toolFromBeamMm: -75,
};

export function workedMachine(layout: LayoutId): Machine {
  return machineFromDescription(layout === "moving-gantry" ? workedGantry : workedBridge);
}

/** Every geometric check once, both ways round where turning matters. */
export function fullCatalogue(): readonly PlannedRun[] {
  const square = { square: "square" };
  const straightedge = { straightedge: "straightedge" };
  const cutter = { cutter: "cutter" };
  return [
    { check: "square-flip", objects: square },
    { check: "frame-diagonals" },
    { check: "rail-spacing" },
    { check: "rail-wind" },
    { check: "stop-gaps" },
    { check: "gap-under-beam" },
    { check: "beam-upright", objects: square },
    { check: "grid-diagonals" },
    { check: "line-along-y" },
    { check: "line-along-x" },
    { check: "beam-to-line" },
    { check: "upright-gap", objects: square, options: { towards: "side" } },
    { check: "upright-gap", objects: square, options: { towards: "side", square: "right or behind" } },
    { check: "upright-gap", objects: square, options: { towards: "fore", flank: "slide" } },
    { check: "runout" },
    { check: "tram-sweep" },
    { check: "level-ride", options: { lies: "side" } },
    { check: "level-ride", options: { lies: "fore" } },
    { check: "bed-touch" },
    { check: "upright-sweep", objects: square, options: { towards: "side" } },
    {
      check: "upright-sweep",
      objects: square,
      options: { towards: "side", stem: "left or front", square: "left or front" },
    },
    { check: "upright-sweep", objects: square, options: { towards: "fore" } },
    { check: "square-sweep", objects: square },
    { check: "square-sweep", objects: square, options: { lies: "turned over, corner front right" } },
    { check: "edge-traverse", objects: straightedge },
    { check: "edge-traverse", objects: straightedge, options: { stem: "front, left or down" } },
    { check: "edge-traverse", objects: straightedge, options: { along: "front to rear", across: "upright" } },
    { check: "travel", options: { axis: "X" } },
    { check: "travel", options: { axis: "Y" } },
    { check: "travel", options: { axis: "Z" } },
    { check: "turnaround", options: { axis: "X" } },
    { check: "turnaround", options: { axis: "Y" } },
    { check: "turnaround", options: { axis: "Z" } },
    { check: "position-runs" },
    { check: "home-repeat" },
    { check: "hole-rectangle" },
    { check: "hole-field" },
    { check: "ring-diameters", objects: cutter },
    { check: "ring-diameters", objects: cutter, options: { direction: "clockwise" } },
    { check: "ring-diameters", objects: cutter, options: { radiusMm: 25 } },
    { check: "slot-width", objects: cutter },
    { check: "groove-widths" },
    { check: "pass-ridges" },
    { check: "two-level-marks", objects: { block: "block" } },
    { check: "two-level-marks", objects: { block: "block" }, options: { block: "turned half round" } },
  ];
}

/** Six checks with workshop instruments, the setting of a usual evening. */
export function sixChecks(): readonly PlannedRun[] {
  const square = { square: "square" };
  return [
    { check: "bed-touch" },
    { check: "tram-sweep" },
    { check: "hole-rectangle" },
    { check: "upright-sweep", objects: square },
    { check: "upright-sweep", objects: square, options: { stem: "left or front", square: "left or front" } },
    { check: "upright-sweep", objects: square, options: { towards: "fore" } },
    { check: "turnaround", options: { axis: "X" } },
    { check: "turnaround", options: { axis: "Y" } },
    { check: "turnaround", options: { axis: "Z" } },
    { check: "gap-under-beam" },
  ];
}

/** A timeline with every default station of the planned runs, all readings 0 for the moment. */
export function plannedTimeline(machine: Machine, plan: readonly PlannedRun[]): Timeline {
  const runs: Run[] = [];
  const readings: Reading[] = [];
  plan.forEach((planned, index) => {
    const check = checkById(planned.check) as GeometricCheck;
    if (!check.layouts.includes(machine.layout.id)) return;
    const instrument = instrumentForFamilies(check.instruments);
    const at = planned.atMs ?? index * 60_000;
    const run: Run = {
      id: `run ${index}`,
      check: check.id,
      at,
      instrument: instrument.id,
      objects: planned.objects ?? {},
      options: planned.options ?? {},
      conditions: {},
      factor: 1,
      withdrawn: null,
    };
    runs.push(run);
    for (const station of check.stations({ machine, options: run.options, instrument })) {
      readings.push({
        id: `${run.id} ${station.key}`,
        run: run.id,
        at,
        station: station.key,
        // A length is near its nominal: a scale of the instrument acts on that. A gap is not 0: that would be a touch.
        entries: [{ form: "value", value: station.nominal ?? 1 }],
        withdrawn: null,
      });
    }
  });
  return {
    machine: machine.description,
    coordinates: null,
    instruments: new Map(Object.values(simulatedInstruments).map((instrument) => [instrument.id, instrument])),
    objects: new Map(),
    runs,
    readings,
    happenings: [],
    limits: new Map(),
    priors: new Map(),
    adjusterChanges: new Map(),
    packingStatedAt: new Map(),
  };
}

/** Draws the truth of every variable of the problem from its prior, in order; play and runout half-normal. */
export function drawTruth(problem: Problem, random: Random): Float64Array {
  const truth = new Float64Array(problem.variables.length);
  const never = new Set(problem.machine.modes.filter((mode) => mode.neverNegative).map((mode) => mode.id));
  for (const { columns, coefficients, target, sd } of problem.ties) {
    const [own, ...others] = columns;
    const variable = problem.variables[own];
    let from = target;
    others.forEach((column, j) => {
      from -= coefficients[j + 1] * truth[column];
    });
    truth[own] = never.has(variable.id)
      ? Math.abs(random.normal()) * (sd / Math.sqrt(1 - 2 / Math.PI))
      : from + sd * random.normal();
  }
  return truth;
}

/** The timeline with readings as the truth and the modelled noise make them. */
export function simulateReadings(problem: Problem, truth: Float64Array, random: Random): Timeline {
  const entries = new Map<string, Entry>();
  for (const observation of problem.observations) {
    const predicted = predictObservation(problem, observation, truth);
    const homing = ownHomingVariance(problem, observation, predicted.gradient);
    const spot = Math.sqrt(observation.ownVariance) * random.normal();
    for (const { reading, sd } of observation.values) {
      const own = Math.sqrt(sd ** 2 + homing) * random.normal();
      const value = predicted.value + spot + own + (observation.station.nominal ?? 0);
      entries.set(reading.id, byLeaves(observation) ? leavesAround(value) : { form: "value", value });
    }
  }
  return {
    ...problem.timeline,
    readings: problem.timeline.readings.map((reading) => ({
      ...reading,
      entries: [entries.get(reading.id) as Entry] as const,
    })),
  };
}

/** A single gap felt with leaves: one goes, the next does not. */
function byLeaves({ setup, check }: Observation): boolean {
  return setup.instrument?.family === "feeler" && !check.entries;
}

function leavesAround(gap: number): Entry {
  const leaf = 0.05;
  const goes = Math.floor(gap / leaf) * leaf;
  return { form: "interval", goes, doesNotGo: goes + leaf };
}
