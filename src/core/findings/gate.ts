import { fitToMeasureRound } from "../checks/catalogue.ts";
import { type Check, type ConditionCheck, isDoneWith, type Setup } from "../checks/check.ts";
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

type Answers = Readonly<Record<string, string>>;

function judge(machine: Machine, timeline: Timeline, check: ConditionCheck): Gate["checks"][number] {
  const ways = (check.doneWith ?? [{}]).map((answers) => judgeWay(machine, timeline, check, answers));
  const where = ways.flatMap((way) => way.where);
  const all = (state: GateState) => ways.every((way) => way.state === state);
  if (where.length > 0) return { check, state: "failed", where };
  return { check, state: all("passed") ? "passed" : all("not done") ? "not done" : "not complete", where };
}

/** One way of doing a check, by its latest run. */
export function judgeWay(
  machine: Machine,
  timeline: Timeline,
  check: ConditionCheck,
  answers: Answers,
): { readonly state: GateState; readonly where: readonly string[] } {
  const run = latestRunWith(machine, timeline, check, answers);
  if (run === null) return { state: "not done", where: [] };
  const failed: string[] = [];
  const complete = judgeRun(machine, timeline, check, run, failed);
  return { state: failed.length > 0 ? "failed" : complete ? "passed" : "not complete", where: failed };
}

/** The latest standing run of a check that was done with these answers; null where there is none. */
export function latestRunWith(machine: Machine, { runs }: Timeline, check: Check, answers: Answers): Run | null {
  return runs.filter((run) => isRunWith(machine, check, run, answers)).at(-1) ?? null;
}

/** Whether it is a standing run of the check, done with these answers. */
export function isRunWith(machine: Machine, check: Check, run: Run, answers: Answers): boolean {
  if (run.check !== check.id || run.withdrawn !== null) return false;
  return isDoneWith(check, { machine, options: run.options, instrument: null }, answers);
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
      if (!answer) failed.push(station.key);
    } else {
      numbers.push(answer);
      if (check.passes?.(answer, station, setup) === false) {
        const cause = check.whatFailed?.(answer, station, setup) ?? null;
        failed.push(cause === null ? station.key : `${station.key}: ${cause}`);
      }
    }
  }
  const together = numbers.length < stations.length || (check.passesTogether?.(numbers) ?? true);
  if (!together && failed.length === 0) failed.push(stations.map(({ key }) => key).join(" against "));
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
