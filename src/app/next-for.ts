import { nextChecks } from "../core/planning/next-check.ts";
import type { NextAnswer } from "../core/planning/next-check-answer.ts";
import type { Plan } from "../core/planning/plan.ts";
import type { RunInReach } from "../core/planning/possible-runs.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import type { WorkState } from "../core/work/work-state.ts";
import type { Assessment } from "./assess.ts";
import { instrumentKinds } from "./catalog.ts";
import { demandResults } from "./plan-for.ts";

/** What to measure next: for the machine as it stands, or for what a plan will leave undecided. */
export function nextFor(assessment: Assessment, planned: Plan | null = null, kindOfWork?: string | null): NextAnswer {
  const demands = planned ? planned.demands.map(({ after }) => after) : demandResults(assessment, kindOfWork).results;
  const moves = planned !== null && planned.moves.length > 0;
  return nextForDemands(assessment, demands, moves ? planned.after : undefined);
}

/** The same for some demands alone, as the machine stands or as it is planned to stand. */
export function nextForDemands(
  { estimate, gate, timeline }: Assessment,
  demands: readonly DemandResult[],
  planned?: WorkState,
): NextAnswer {
  return nextChecks({
    estimate,
    gate,
    demands,
    ...(planned && { planned }),
    willSkim: timeline.wishes.willSkim === true,
    kinds: [...instrumentKinds.values()],
  });
}

/** "Turnaround (axis X)": the check and the answers by which this way of doing it differs from others. */
export function runTitle({ check, setup }: RunInReach): string {
  const how = Object.entries(setup.options)
    .filter(([, answer]) => typeof answer === "string")
    .map(([, answer]) => answer);
  return how.length === 0 ? check.words.title : `${check.words.title} (${how.join(", ")})`;
}

/** The same, for machines. */
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
          serves: serves.map(({ demand, settles }) => ({ demand: demand.id, settles })),
        })),
      };
  }
}

function runAsJson({ check, setup, objects, minutes }: RunInReach) {
  return { check: check.id, options: setup.options, instrument: setup.instrument.id, objects, minutes };
}
