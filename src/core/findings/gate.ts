import { fitToMeasureRound } from "../checks/catalogue.ts";
import { type ConditionCheck, optionOf, type Setup } from "../checks/check.ts";
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
  if (runs.length === 0) return { check, state: "not done", where: [] };
  const failed: string[] = [];
  let complete = true;
  for (const answers of check.doneWith ?? [null]) {
    // Each way of doing it counts by its latest run.
    const run = [...runs]
      .reverse()
      .find((candidate) => answers === null || isDoneWith(machine, check, candidate, answers));
    if (run === undefined) complete = false;
    else complete = judgeRun(machine, timeline, check, run, failed) && complete;
  }
  if (failed.length > 0) return { check, state: "failed", where: failed };
  return { check, state: complete ? "passed" : "not complete", where: [] };
}

function isDoneWith(
  machine: Machine,
  check: ConditionCheck,
  run: Run,
  answers: Readonly<Record<string, string>>,
): boolean {
  const setup: Setup = { machine, options: run.options, instrument: null };
  return Object.entries(answers).every(([key, answer]) => optionOf(check, setup, key) === answer);
}

/** Adds what did not pass to `failed`; true when every station has been read. */
function judgeRun(machine: Machine, timeline: Timeline, check: ConditionCheck, run: Run, failed: string[]): boolean {
  const setup: Setup = { machine, options: run.options, instrument: instrumentOfRun(timeline, run) };
  const stations = check.stations(setup);
  const numbers: number[] = [];
  let complete = true;
  for (const station of stations) {
    const answer = answerAt(timeline, run, station.key);
    if (answer === null) complete = false;
    else if (typeof answer === "boolean") {
      if (!answer) failed.push(station.words);
    } else {
      numbers.push(answer);
      if (check.passes?.(answer, station, setup) === false) {
        const cause = check.whatFailed?.(answer, station, setup) ?? null;
        failed.push(cause === null ? station.words : `${station.words}: ${cause}`);
      }
    }
  }
  const together = numbers.length < stations.length || (check.passesTogether?.(numbers) ?? true);
  if (!together && failed.length === 0) failed.push(stations.map(({ words }) => words).join(" against "));
  return complete;
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
