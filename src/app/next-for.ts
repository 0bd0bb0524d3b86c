import { nextChecks } from "../core/planning/next-check.ts";
import type { NextAnswer } from "../core/planning/next-check-answer.ts";
import type { Plan } from "../core/planning/plan.ts";
import type { RunInReach } from "../core/planning/possible-runs.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import type { Assessment } from "./assess.ts";
import { instrumentKinds } from "./catalog.ts";
import { demandResults } from "./plan-for.ts";

export { runTitle } from "../core/planning/next-check-words.ts";

/** What to measure next: for the machine as it stands, or for what a plan will leave undecided. */
export function nextFor(assessment: Assessment, planned: Plan | null = null, kindOfWork?: string | null): NextAnswer {
  const demands = planned ? planned.demands.map(({ after }) => after) : demandResults(assessment, kindOfWork).results;
  return nextForDemands(assessment, demands, planned);
}

/** The same for some demands alone, as the machine stands or as a plan will leave it. */
export function nextForDemands(
  { estimate, gate, timeline }: Assessment,
  demands: readonly DemandResult[],
  planned: Plan | null = null,
): NextAnswer {
  const moves = planned !== null && planned.moves.length > 0;
  return nextChecks({
    estimate,
    gate,
    demands,
    ...(moves && { planned: planned.after }),
    willSkim: willSkimBefore(timeline.wishes.willSkim, planned),
    kinds: [...instrumentKinds.values()],
  });
}

/** Whether the bed will be another when the work is cut: by what was decided, or by the plan. */
export function willSkimBefore(willSkim: boolean | null, planned: Plan | null): boolean {
  return willSkim === true || (planned?.moves.some(({ adjuster }) => adjuster.kind === "skim") ?? false);
}

/** What to measure next, for machines. */
export function nextAsJson(answer: NextAnswer) {
  switch (answer.kind) {
    case "you know enough":
      return { ...answer, undecided: answer.undecided.map(({ id }) => id) };
    case "no instrument":
      return {
        kind: answer.kind,
        reason: answer.reason,
        demands: answer.verdicts.map(({ demand, sentence, decides, would }) => ({
          demand: demand.id,
          decides,
          lacks: would?.lacks ?? [],
          sentence,
        })),
      };
    case "fit to measure":
      return {
        kind: answer.kind,
        reason: answer.reason,
        open: answer.open.map(({ check, state, where }) => ({ check: check.id, state, where })),
      };
    case "short round":
      return {
        kind: answer.kind,
        reason: answer.reason,
        conditions: answer.conditions.map(({ id }) => id),
        checks: answer.runs.map(runAsJson),
        without: answer.without.map(({ id }) => id),
      };
    case "check":
      return {
        kind: answer.kind,
        checks: answer.next.map(({ run, reason, gain, serves }) => ({
          ...runAsJson(run),
          reason,
          gain,
          serves: serves.map(({ demand, settles, standardUncertaintyNow, standardUncertaintyAfter }) => {
            return { demand: demand.id, settles, standardUncertaintyNow, standardUncertaintyAfter };
          }),
        })),
      };
  }
}

/** A run for machines. */
export function runAsJson({ check, setup, objects, minutes }: RunInReach) {
  return { check: check.id, options: setup.options, instrument: setup.instrument.id, objects, minutes };
}
