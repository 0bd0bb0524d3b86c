import type { Estimate } from "../../src/core/fit/estimate.ts";
import type { Happening, Reading, Run, Timeline } from "../../src/core/fit/timeline.ts";
import type { Machine } from "../../src/core/machine/machine.ts";
import { simulatedInstruments } from "./workshop.ts";

/** Standard deviation of a mode as the machine stands now. */
export function sdOf({ problem, covariance }: Estimate, mode: string): number {
  const i = problem.machine.parameterIndex.get(mode) as number;
  return Math.sqrt(covariance[i * problem.machine.parameters.length + i]);
}

export function valueOfMode({ problem, state }: Estimate, mode: string): number {
  return state[problem.machine.parameterIndex.get(mode) as number];
}

/** A timeline of a few runs of one value a station, and what happened in between. */
export function timelineOf(
  machine: Machine,
  runs: readonly {
    check: string;
    at: number;
    options?: Run["options"];
    instrument: string;
    readings: readonly (readonly [string, number])[];
  }[],
  happenings: readonly Happening[] = [],
): Timeline {
  const readings: Reading[] = runs.flatMap((run, r) =>
    run.readings.map(([station, value], i) => ({
      id: `${r}-${String(i).padStart(3, "0")}`,
      run: `run ${r}`,
      at: run.at + i,
      station,
      entries: [{ form: "value", value }] as const,
      withdrawn: null,
    })),
  );
  return {
    machine: machine.description,
    coordinates: null,
    instruments: new Map(Object.values(simulatedInstruments).map((instrument) => [instrument.id, instrument])),
    objects: new Map(),
    runs: runs.map(({ check, at, options, instrument }, r) => ({
      id: `run ${r}`,
      check,
      at,
      instrument,
      objects: {},
      options: options ?? {},
      conditions: {},
      factor: 1,
      withdrawn: null,
    })),
    readings,
    happenings,
    limits: new Map(),
    priors: new Map(),
    adjusterChanges: new Map(),
    packingStatedAt: new Map(),
  };
}

/** Play of X read three times by a dial: 0.12. */
export const playRun = (at: number, value = 0.12) => ({
  check: "turnaround",
  at,
  options: { axis: "X" },
  instrument: "dial",
  readings: [
    ["nose", value],
    ["nose", value],
    ["nose", value],
  ] as const,
});

export const scaleRun = (at: number, excess: number) => ({
  check: "travel",
  at,
  options: { axis: "X" },
  instrument: "rule",
  readings: [
    ["x=300", 300 * (1 + excess / 1000)],
    ["x=500", 500 * (1 + excess / 1000)],
  ] as const,
});
