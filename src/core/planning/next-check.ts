import { shortRound } from "../checks/catalogue.ts";
import type { Check, ConditionCheck } from "../checks/check.ts";
import { stages } from "../checks/check-words.ts";
import type { Gate } from "../findings/gate.ts";
import type { Estimate } from "../fit/estimate.ts";
import { outlookFrom } from "../fit/expected.ts";
import type { Demand } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import { unreadDemands } from "../work/unread.ts";
import type { InstrumentVerdict, NextAnswer, NextCheck, NextQuestion, ServedDemand } from "./next-check-answer.ts";
import {
  DECIDING_SHARE,
  type Decision,
  decisionOf,
  decisionVariance,
  standingOf,
  worstVariance,
} from "./next-check-deciding.ts";
import { instrumentVerdicts } from "./next-check-instruments.ts";
import { reasonFor, reasonForEnough, reasonForNoInstrument } from "./next-check-words.ts";
import { possibleRuns, type RunInReach } from "./possible-runs.ts";
import { sameLook } from "./possible-runs-variants.ts";

/**
 * A run is worth its minutes when an hour of the like would take a sixteenth off (standard uncertainty/limit)²: a quarter
 * of the limit. A quarter of an hour must bring the standard uncertainty down from an eighth of the limit to nothing, or
 * do as well elsewhere (our choice).
 */
const WORTH_PER_MINUTE = 1 / 16 / 60;
/** A demand is served by a run that takes at least a tenth off its variance (our choice). */
const LEAST_SHARE = 0.1;
const SHOWN = 3;

/**
 * What to measure next: for every run that the user's instruments and the machine's stage allow, by how much it is expected
 * to bring down what keeps the demands from being decided, per minute. No reading has to be taken to know that. Of the
 * ways of doing one check that look at the same thing only the best is shown.
 *
 *   gain = Σ over demands of w·(D(V) − D(V′)),  D(V) = V/(V + t²)
 *
 * w how undecided the demand is, V the variance of what decides it now and V′ after the run, t its limit. Near a decision
 * D(V) is V/t²; a doubt many times the limit is no more than undecided: to halve it decides nothing.
 */
export function nextChecks(question: NextQuestion): NextAnswer {
  const { estimate, gate, demands, planned, willSkim = false, stage = "cutting", kinds = [] } = question;
  const { machine, timeline } = estimate.problem;
  const { own } = possibleRuns(machine, timeline, { stage, kinds });
  const isBuilt = ({ words }: Check) => stages.indexOf(words.stage) <= stages.indexOf(stage);
  if (!timeline.readings.some(({ withdrawn }) => withdrawn === null)) {
    return shortRoundOf(shortRound(machine).filter(isBuilt), own);
  }
  const open = gate.checks.filter(({ check, state }) => state !== "passed" && isBuilt(check));
  if (open.length > 0) return { kind: "fit to measure", open, reason: fitToMeasureReason(open) };
  const standing = standingOf(estimate, willSkim, planned);
  const unread = unreadDemands(
    estimate,
    demands.map(({ demand }) => demand),
  );
  const decisions = demands
    .map((result): Decision => {
      const decision = decisionOf(standing, result);
      // What is usual of machines in general decides nothing, however well it lies within.
      return unread.has(result.demand.id) ? { ...decision, undecided: 1 } : decision;
    })
    .filter(({ undecided }) => undecided > 0);
  const ranked = rankRuns(estimate, decisions, own);
  const next = onePerLook(ranked).slice(0, SHOWN);
  if (next.length > 0) return { kind: "check", next };
  const unknown = demands.filter((result) => isUnknown(estimate, decisions, result));
  if (unknown.length > 0) {
    const verdicts = instrumentVerdicts({ ...question, demands: unknown });
    const settling = settlingChecks(verdicts);
    if (settling.length > 0) return { kind: "check", next: settling.slice(0, SHOWN) };
    return { kind: "no instrument", verdicts, reason: reasonForNoInstrument(unknown) };
  }
  const undecided = decisions.map(({ demand }) => demand);
  return { kind: "you know enough", undecided, reason: reasonForEnough(demands, undecided) };
}

/**
 * What is not worth its minutes by the rate, but is the user's own and settles what would else stay unknown: nobody is told
 * that nothing can be read for it.
 */
function settlingChecks(verdicts: readonly InstrumentVerdict[]): readonly NextCheck[] {
  return verdicts.flatMap(
    ({ demand, open, decides, by, standardUncertaintyNow, standardUncertaintyAfter, sentence }) => {
      if (!decides || open === "moves") return [];
      const served: ServedDemand = { demand, gain: 0, settles: true, standardUncertaintyNow, standardUncertaintyAfter };
      return by.map(
        (run): NextCheck => ({
          ...{ run, minutes: run.minutes, gain: 0, gainPerMinute: 0, serves: [served] },
          reason: `${demand.title}: ${sentence}`,
        }),
      );
    },
  );
}

/** Undecided, and not because it lies close to its limit. */
function isUnknown(estimate: Estimate, decisions: readonly Decision[], { demand }: DemandResult): boolean {
  const decision = decisions.find((candidate) => candidate.demand === demand);
  if (!decision) return false;
  const gradients = decision.functions.map(({ gradient }) => gradient);
  const variance = worstVariance(decision.functions, outlookFrom(estimate, gradients).now);
  return Math.sqrt(variance) > DECIDING_SHARE * demand.limit;
}

/** Runs worth their minutes, best first; equals in the order of the catalogue. */
export function rankRuns(
  estimate: Estimate,
  decisions: readonly Decision[],
  runs: readonly RunInReach[],
): readonly NextCheck[] {
  const functions = decisions.flatMap((decision) => decision.functions);
  const outlook = outlookFrom(
    estimate,
    functions.map(({ gradient }) => gradient),
  );
  const perDecision = <T>(variances: Float64Array, reduce: (own: Decision["functions"], of: Float64Array) => T) => {
    let from = 0;
    return decisions.map(({ functions: own }) => {
      from += own.length;
      return reduce(own, variances.subarray(from - own.length, from));
    });
  };
  const now = perDecision(outlook.now, decisionVariance);
  return runs
    .flatMap((run): NextCheck[] => {
      const variances = outlook.after([run]);
      const after = perDecision(variances, decisionVariance);
      const worst = perDecision(variances, worstVariance);
      const serves = decisions
        .map(
          ({ demand, undecided }, d): ServedDemand => ({
            demand,
            gain: undecided * (doubt(now[d], demand) - doubt(after[d], demand)),
            settles: Math.sqrt(worst[d]) <= DECIDING_SHARE * demand.limit,
            standardUncertaintyNow: Math.sqrt(now[d]),
            standardUncertaintyAfter: Math.sqrt(after[d]),
          }),
        )
        .filter((_, d) => now[d] > 0 && 1 - after[d] / now[d] >= LEAST_SHARE)
        .sort((a, b) => b.gain - a.gain);
      const gain = serves.reduce((sum, served) => sum + served.gain, 0);
      const { minutes } = run;
      if (gain / minutes < WORTH_PER_MINUTE) return [];
      return [{ run, minutes, gain, gainPerMinute: gain / minutes, serves, reason: reasonFor(serves) }];
    })
    .sort((a, b) => b.gainPerMinute - a.gainPerMinute);
}

function doubt(variance: number, { limit }: Demand): number {
  return variance / (variance + limit ** 2);
}

/** The first for each thing that can be looked at: how it stood, which marks were read and by what changes nothing of that. */
export function onePerLook<T extends { readonly run: RunInReach }>(ranked: readonly T[]): readonly T[] {
  const seen = new Set<string>();
  return ranked.filter(({ run }) => {
    const looks = Object.entries(run.setup.options).filter(([key]) => !sameLook.has(key));
    const look = `${run.check.id} ${JSON.stringify(looks)}`;
    const isNew = !seen.has(look);
    seen.add(look);
    return isNew;
  });
}

/** Ways of the short round's checks, in the order in which they are done. */
const shortRoundWays: Readonly<Record<string, readonly Readonly<Record<string, string>>[]>> = {
  turnaround: [{ axis: "X" }, { axis: "Y" }],
  "hole-rectangle": [{ marks: "pricks" }],
};

function shortRoundOf(round: readonly Check[], own: readonly RunInReach[]): NextAnswer {
  const runs: RunInReach[] = [];
  const without: Check[] = [];
  for (const check of round) {
    if (check.kind === "condition") continue;
    for (const answers of shortRoundWays[check.id] ?? [{}]) {
      const run = own.find(
        ({ check: { id }, setup }) =>
          id === check.id && Object.entries(answers).every(([key, answer]) => setup.options[key] === answer),
      );
      if (run) runs.push(run);
      else if (!without.includes(check)) without.push(check);
    }
  }
  return {
    kind: "short round",
    conditions: round.filter((check): check is ConditionCheck => check.kind === "condition"),
    runs,
    without,
    reason: "Nothing has been read on this machine yet, and this round shows most of what matters.",
  };
}

function fitToMeasureReason(open: Gate["checks"]): string {
  return open.some(({ state }) => state === "failed")
    ? "A loose machine reads differently every time: what did not pass comes first, then the check that found it."
    : "A reading on a loose machine is worth nothing, so the rest of the fit-to-measure round comes first.";
}
