import { outlookFrom } from "../fit/expected.ts";
import type { DecidingRuns, InstrumentVerdict, NextQuestion } from "./next-check-answer.ts";
import {
  DECIDING_SHARE,
  type DecidingFunction,
  decisionOf,
  decisionVariance,
  standingOf,
  worstVariance,
} from "./next-check-deciding.ts";
import { verdictInWords } from "./next-check-words.ts";
import { possibleRuns, type RunInReach } from "./possible-runs.ts";

/** Both leans, or all three axes: more runs than this for one question is no answer. */
const MOST_RUNS = 3;
/** A further run has to take at least a twentieth off the variance. */
const LEAST_FALL = 0.05;

/**
 * For each demand: whether the standard uncertainty of what decides it can be brought down to a third of the limit by at
 * most three runs with the user's own instruments, and if not, which instrument of those listed would do it. To be said
 * before the work begins.
 */
export function instrumentVerdicts(question: NextQuestion): readonly InstrumentVerdict[] {
  const { estimate, demands, planned, willSkim = false, stage, kinds = [] } = question;
  const { machine, timeline } = estimate.problem;
  const { own, listed } = possibleRuns(machine, timeline, { ...(stage && { stage }), kinds });
  const standing = standingOf(estimate, willSkim, planned);
  return demands.map((result) => {
    const { demand, functions } = decisionOf(standing, result);
    const goal = (DECIDING_SHARE * demand.limit) ** 2;
    const search = searchFor(question, functions, goal);
    const mine = search([], own);
    const beyond = worstVariance(functions, new Float64Array(functions.length));
    const decides = mine.worst <= goal;
    const verdict = {
      demand,
      decides,
      by: mine.runs,
      standardUncertaintyNow: Math.sqrt(search([], []).worst),
      standardUncertaintyAfter: Math.sqrt(mine.worst),
      beyondReading: Math.sqrt(beyond),
      would: decides || beyond > goal ? null : firstThatWould(search, mine.runs, listed, goal),
    };
    return { ...verdict, sentence: verdictInWords(verdict, willSkim) };
  });
}

interface Round {
  readonly runs: readonly RunInReach[];
  /** Of all that may decide, and of the least known of it. */
  readonly variance: number;
  readonly worst: number;
}

type Search = (first: readonly RunInReach[], runs: readonly RunInReach[]) => Round;

/**
 * Adds one run after the other until the goal is reached: of those that reach it the one of the fewest minutes, else the
 * one that brings most; equals in the order given.
 */
function searchFor({ estimate }: NextQuestion, functions: readonly DecidingFunction[], goal: number): Search {
  const outlook = outlookFrom(
    estimate,
    functions.map(({ gradient }) => gradient),
  );
  const after = (runs: readonly RunInReach[]): Round => {
    const variances = outlook.after(runs);
    return { runs, variance: decisionVariance(functions, variances), worst: worstVariance(functions, variances) };
  };
  return (first, candidates) => {
    let round = after(first);
    for (let added = 0; added < MOST_RUNS && round.worst > goal; added++) {
      const { runs, variance } = round;
      const tried = candidates.filter((run) => !runs.includes(run)).map((run) => after([...runs, run]));
      const reaching = tried.filter(({ worst }) => worst <= goal);
      const [best] =
        reaching.length > 0
          ? reaching.sort((a, b) => minutesOf(a) - minutesOf(b))
          : tried.sort((a, b) => a.variance - b.variance);
      if (!best || (best.worst > goal && best.variance > (1 - LEAST_FALL) * variance)) break;
      round = best;
    }
    return round;
  };
}

function minutesOf({ runs }: Pick<Round, "runs">): number {
  return runs.reduce((sum, { minutes }) => sum + minutes, 0);
}

/** The thing to get with which the fewest minutes decide; where one thing would do, not two. */
function firstThatWould(
  search: Search,
  mine: readonly RunInReach[],
  listed: readonly RunInReach[],
  goal: number,
): DecidingRuns | null {
  const byLack = new Map<string, RunInReach[]>();
  for (const run of listed) {
    const key = run.lacks.join("\n");
    byLack.set(key, [...(byLack.get(key) ?? []), run]);
  }
  const ways = [...byLack.values()].flatMap((runs): DecidingRuns[] => {
    // What the user's own runs bring on top is only asked for where the new thing alone does not do it.
    const alone = search([], runs);
    const round = alone.worst <= goal ? alone : search(mine, runs);
    if (round.worst > goal) return [];
    return [{ lacks: runs[0].lacks, runs: round.runs, standardUncertaintyAfter: Math.sqrt(round.worst) }];
  });
  ways.sort((a, b) => a.lacks.length - b.lacks.length || minutesOf(a) - minutesOf(b));
  return ways[0] ?? null;
}
