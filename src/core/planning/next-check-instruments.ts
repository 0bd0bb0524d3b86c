import { WITHIN } from "../findings/evaluate.ts";
import { outlookFrom } from "../fit/expected.ts";
import { normalQuantile } from "../numerics/distributions.ts";
import type { DemandResult } from "../work/demand-result.ts";
import { unreadDemands } from "../work/unread.ts";
import type { DecidingRuns, InstrumentVerdict, NextQuestion, OpenBecause } from "./next-check-answer.ts";
import {
  DECIDING_SHARE,
  type DecidingFunction,
  decisionOf,
  decisionVariance,
  standingOf,
  worstVariance,
  worstVarianceThere,
} from "./next-check-deciding.ts";
import { verdictInWords } from "./next-check-words.ts";
import { possibleRuns, type RunInReach } from "./possible-runs.ts";

/** Both leans, or all three axes: more runs than this for one question is no answer. */
const MOST_RUNS = 3;
/** A further run has to take at least a twentieth off the variance. */
const LEAST_FALL = 0.05;

/** A reading that bears on a demand for the first time takes at least half off its standard uncertainty (our choice). */
const FIRST_READING = 1 / 2;

/**
 * For each demand: whether it can be decided by at most three runs with the user's own instruments, and if not, which
 * instrument of those listed would do it. To be said before the work begins, and of every demand that is still open.
 *
 * A demand is decided when the standard uncertainty of what decides it is at most a third of the limit. One of which
 * little is not known, and which is open all the same, lies close to its limit: then so much has to be known of it that
 * its distance from the limit tells.
 */
export function instrumentVerdicts(question: NextQuestion): readonly InstrumentVerdict[] {
  const { estimate, demands, planned, willSkim = false, stage, kinds = [] } = question;
  const { machine, timeline } = estimate.problem;
  const { own, listed } = possibleRuns(machine, timeline, { ...(stage && { stage }), kinds });
  const standing = standingOf(estimate, willSkim, planned);
  const unread = unreadDemands(
    estimate,
    demands.map(({ demand }) => demand),
  );
  return demands.map((result) => {
    const { demand, functions } = decisionOf(standing, result);
    const search = searchFor(question, functions);
    const now = search([], [], 0).worst;
    const left = planned === undefined ? 0 : Math.max(0, worstVarianceThere(functions) - now);
    const open = openBecause(result, now, left, unread.has(demand.id));
    const goal = goalFor(result, open, now);
    const found = open === "nothing" || open === "moves" ? search([], [], goal) : search([], own, goal);
    // What lies close to its limit is settled or it is not: to come nearer brings nothing.
    const mine = open === "close" && found.worst > goal ? search([], [], goal) : found;
    const beyond = worstVariance(functions, new Float64Array(functions.length));
    const decides = open === "nothing" || mine.worst <= goal;
    const asksFor = decides || beyond > goal || open === "moves";
    const verdict = {
      ...{ demand, open, decides, by: mine.runs },
      standardUncertaintyNow: Math.sqrt(now),
      standardUncertaintyAfter: Math.sqrt(mine.worst),
      beyondReading: Math.sqrt(beyond),
      leftByMoves: Math.sqrt(left),
      would: asksFor ? null : firstThatWould(search, mine.runs, listed, goal),
    };
    return { ...verdict, sentence: verdictInWords(verdict, result, willSkim) };
  });
}

function openBecause(
  { demand: { limit }, verdict, probability }: DemandResult,
  now: number,
  left: number,
  isUnread: boolean,
): OpenBecause {
  if (isUnread) return "unread";
  if (now > (DECIDING_SHARE * limit) ** 2) return "doubt";
  if (verdict !== "not known yet" || probability >= WITHIN) return "nothing";
  return left > now ? "moves" : "close";
}

/** The variance that decides. */
function goalFor({ demand: { limit }, value }: DemandResult, open: OpenBecause, now: number): number {
  const third = (DECIDING_SHARE * limit) ** 2;
  if (open === "close") return ((limit - value) / normalQuantile(WITHIN)) ** 2;
  return open === "unread" ? Math.min(third, FIRST_READING ** 2 * now) : third;
}

interface Round {
  readonly runs: readonly RunInReach[];
  /** Of all that may decide, and of the least known of it. */
  readonly variance: number;
  readonly worst: number;
}

type Search = (first: readonly RunInReach[], runs: readonly RunInReach[], goal: number) => Round;

/**
 * Adds one run after the other until the goal is reached: of those that reach it the one of the fewest minutes, else the
 * one that brings most; equals in the order given.
 */
function searchFor({ estimate }: NextQuestion, functions: readonly DecidingFunction[]): Search {
  const outlook = outlookFrom(
    estimate,
    functions.map(({ gradient }) => gradient),
  );
  const after = (runs: readonly RunInReach[]): Round => {
    const variances = outlook.after(runs);
    return { runs, variance: decisionVariance(functions, variances), worst: worstVariance(functions, variances) };
  };
  return (first, candidates, goal) => {
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
    const alone = search([], runs, goal);
    const round = alone.worst <= goal ? alone : search(mine, runs, goal);
    if (round.worst > goal) return [];
    return [{ lacks: runs[0].lacks, runs: round.runs, standardUncertaintyAfter: Math.sqrt(round.worst) }];
  });
  ways.sort((a, b) => a.lacks.length - b.lacks.length || minutesOf(a) - minutesOf(b));
  return ways[0] ?? null;
}
