import { fitToMeasureRound } from "../checks/catalogue.ts";
import type { ConditionCheck, Setup } from "../checks/check.ts";
import { instrumentOfRun } from "../fit/observations.ts";
import type { Run, Timeline } from "../fit/timeline.ts";
import { bestValue } from "../instruments/reading-uncertainty.ts";
import type { Machine } from "../machine/machine.ts";

/** Whether the machine is fit to be measured, by the latest run of each of the round's checks. */
export interface Gate {
  readonly passed: boolean;
  readonly checks: readonly {
    readonly check: ConditionCheck;
    readonly state: GateState;
    readonly where: readonly string[];
  }[];
}

export type GateState = "passed" | "failed" | "not done" | "not complete";

export function gateFromTimeline(machine: Machine, timeline: Timeline): Gate {
  const checks = fitToMeasureRound(machine).map((check) => judge(machine, timeline, check));
  return { passed: checks.every(({ state }) => state === "passed"), checks };
}

function judge(machine: Machine, timeline: Timeline, check: ConditionCheck): Gate["checks"][number] {
  const runs = timeline.runs.filter((run) => run.check === check.id && run.withdrawn === null);
  // A check that asks for an axis is passed axis by axis: each way of setting it up counts by its latest run.
  const latest = new Map(runs.map((run) => [JSON.stringify(run.options), run]));
  if (latest.size === 0) return { check, state: "not done", where: [] };
  const failed: string[] = [];
  let complete = true;
  for (const run of latest.values()) {
    const setup: Setup = { machine, options: run.options, instrument: instrumentOfRun(timeline, run) };
    for (const station of check.stations(setup)) {
      const answer = answerAt(timeline, run, station.key);
      if (answer === null) complete = false;
      else if (typeof answer === "boolean" ? !answer : check.passes && !check.passes(answer, station, setup)) {
        failed.push(station.words);
      }
    }
  }
  if (failed.length > 0) return { check, state: "failed", where: failed };
  return { check, state: complete ? "passed" : "not complete", where: [] };
}

/** The last standing reading at a station: a number in core units, yes or no, or null. */
function answerAt(timeline: Timeline, run: Run, station: string): number | boolean | null {
  let answer: number | boolean | null = null;
  for (const reading of timeline.readings) {
    if (reading.run !== run.id || reading.station !== station || reading.withdrawn !== null) continue;
    const [entry] = reading.entries;
    answer = entry.form === "verdict" ? entry.passed : run.factor * bestValue(entry);
  }
  return answer;
}
