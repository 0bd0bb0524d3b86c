import { invariant } from "../base/invariant.ts";
import { checkById } from "../checks/catalogue.ts";
import type { GeometricCheck, Setup, Station } from "../checks/check.ts";
import type { Entry } from "../instruments/entry.ts";
import type { Instrument } from "../instruments/instrument.ts";
import { bestValue, type MeasuredEntry, readingUncertainty } from "../instruments/reading-uncertainty.ts";
import type { Machine } from "../machine/machine.ts";
import type { Epoch } from "./epochs.ts";
import { machineOfRun } from "./run-machine.ts";
import { stationFromKey } from "./station-key.ts";
import type { Reading, Run, Timeline } from "./timeline.ts";

/** Readings of one run at one station in one epoch after one homing: they are predicted by one row. */
export interface Observation {
  readonly run: Run;
  readonly check: GeometricCheck;
  readonly setup: Setup;
  readonly station: Station;
  readonly epoch: number;
  readonly homing: number;
  readonly values: readonly ReadValue[];
  /** Bounds are kept apart: a likelihood of one side is not a mean. */
  readonly bounds: readonly ReadBound[];
}

/** In the formula's terms: what was typed, times the run's factor, less the nominal. */
export interface ReadValue {
  readonly reading: Reading;
  readonly value: number;
  readonly sd: number;
  /** What was typed, times the factor: a scale of the instrument acts on it. */
  readonly typed: number;
}

export interface ReadBound {
  readonly reading: Reading;
  readonly bound: number;
  readonly side: "atLeast" | "atMost";
  readonly sd: number;
}

/** A reading can take part when neither it nor its run is withdrawn and its check bears on the geometry. */
export function usableReadings(timeline: Timeline, machine: Machine): readonly Reading[] {
  const usable = new Set<string>();
  for (const run of timeline.runs) {
    if (run.withdrawn === null && measuringRun(machine, timeline, run) !== null) usable.add(run.id);
  }
  return timeline.readings.filter(({ run, withdrawn }) => withdrawn === null && usable.has(run));
}

export function observationsFromEpochs(
  machine: Machine,
  timeline: Timeline,
  epochs: readonly Epoch[],
  rockMm: number,
): readonly Observation[] {
  const runs = new Map(timeline.runs.map((run) => [run.id, run]));
  const setups = new Map<string, MeasuringRun & { stations: Map<string, Station | null> }>();
  const observations = new Map<string, Observation & { values: ReadValue[]; bounds: ReadBound[] }>();
  epochs.forEach((epoch, epochIndex) => {
    for (const { reading, homing } of epoch.readings) {
      const run = runs.get(reading.run) as Run;
      let known = setups.get(run.id);
      if (!known) {
        const measuring = measuringRun(machine, timeline, run);
        invariant(measuring !== null, "only readings that bear on the geometry stand in an epoch");
        known = { ...measuring, stations: new Map() };
        setups.set(run.id, known);
      }
      let station = known.stations.get(reading.station);
      if (station === undefined) {
        // A place that only the reach of now has was read nonetheless.
        station =
          stationFromKey(known.check, known.setup, reading.station) ??
          stationFromKey(known.check, { ...known.setup, machine }, reading.station);
        known.stations.set(reading.station, station);
      }
      if (!station) continue;
      const key = `${run.id}\n${station.key}\n${epochIndex}\n${homing}`;
      let observation = observations.get(key);
      if (!observation) {
        const { check, setup } = known;
        observation = { run, check, setup, station, epoch: epochIndex, homing, values: [], bounds: [] };
        observations.set(key, observation);
      }
      addReading(observation, reading, rockMm);
    }
  });
  return [...observations.values()];
}

/** The instrument of a run, or what is usual for its check when none is stated. */
export function instrumentOfRun(timeline: Timeline, run: Run): Instrument | null {
  return run.instrument === null ? null : (timeline.instruments.get(run.instrument) ?? null);
}

/** How a run was set up, on the machine that its stations are laid out on. */
export function setupOfRun(machine: Machine, timeline: Timeline, run: Run): Setup {
  return { machine: machineOfRun(machine, run), options: run.options, instrument: instrumentOfRun(timeline, run) };
}

/** A run with the check that it carries out and how it was set up. */
export interface MeasuringRun {
  readonly run: Run;
  readonly check: GeometricCheck;
  readonly setup: Setup;
}

/** Null where the run's check does not bear on the geometry of this machine. */
export function measuringRun(machine: Machine, timeline: Timeline, run: Run): MeasuringRun | null {
  const check = checkById(run.check);
  if (check?.kind !== "geometric" || !check.layouts.includes(machine.layout.id)) return null;
  return { run, check, setup: setupOfRun(machine, timeline, run) };
}

function addReading(
  observation: Observation & { values: ReadValue[]; bounds: ReadBound[] },
  reading: Reading,
  rockMm: number,
): void {
  const { run, check, setup, station } = observation;
  const nominal = station.nominal ?? 0;
  const { entries } = reading;
  const rock = check.atTip && check.quantity === "length" ? rockMm : 0;
  if (entries.length === 2) {
    const [first, second] = entries;
    if (!isMeasured(first) || !isMeasured(second)) return;
    const typed = run.factor * (bestValue(first) - bestValue(second));
    const sd = Math.hypot(uncertaintyOfEntry(run, setup, first, 0), uncertaintyOfEntry(run, setup, second, 0), rock);
    observation.values.push({ reading, value: typed - nominal, sd, typed });
    return;
  }
  const [entry] = entries;
  if (!isMeasured(entry)) return;
  const sd = uncertaintyOfEntry(run, setup, entry, rock);
  const typed = run.factor * bestValue(entry);
  if (entry.form === "atLeast" || entry.form === "atMost") {
    const turned = run.factor < 0;
    const side = (entry.form === "atLeast") === !turned ? "atLeast" : "atMost";
    observation.bounds.push({ reading, bound: typed - nominal, side, sd });
    return;
  }
  observation.values.push({ reading, value: typed - nominal, sd, typed });
}

// Light under an edge is seen from about this gap on, mm (common practice, no source).
const LIGHT_GAP = 0.003;

/** Of one entry in the formula's terms. An edge that touches shows no gap: nothing is read without a leaf and has no feel, only the eye's. */
export function uncertaintyOfEntry(
  { factor }: Pick<Run, "factor">,
  setup: Setup,
  typed: MeasuredEntry,
  rock: number,
): number {
  // Leaves that were typed in another unit are as far apart as they really are.
  const entry: MeasuredEntry =
    typed.form === "interval" ? { ...typed, goes: factor * typed.goes, doesNotGo: factor * typed.doesNotGo } : typed;
  const touching = entry.form === "value" && entry.value === 0 && setup.instrument?.family === "feeler";
  if (touching) return Math.hypot(LIGHT_GAP, rock);
  if (!setup.instrument) return Math.hypot(USUAL_FEEL, rock);
  return readingUncertainty(setup.instrument, entry, { rock });
}

// A reading whose instrument nobody stated is taken as one by leaves, mm (or as one by a level, mm/m).
const USUAL_FEEL = 0.05;

function isMeasured(entry: Entry): entry is MeasuredEntry {
  return entry.form !== "verdict";
}
