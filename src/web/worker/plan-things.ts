import { type Brought, broughtBy } from "../../app/brought.ts";
import { runTitle } from "../../app/next-for.ts";
import type { WorkPlan } from "../../app/plan-for.ts";
import { moveInWords } from "../../app/plan-words.ts";
import { formatTrimmed } from "../../core/base/number-format.ts";
import type { NextAnswer } from "../../core/planning/next-check-answer.ts";
import type { Plan, PlannedMove } from "../../core/planning/plan.ts";
import type { RunInReach } from "../../core/planning/possible-runs.ts";
import { showDemand } from "../../core/work/shown-demand.ts";
import { queryFromChoice } from "../views/measure/setup-query.ts";
import { lowerFirst } from "./next-thing.ts";
import type { NextThing } from "./protocol.ts";
import type { PlannedThings } from "./protocol-moves.ts";

/** What a plan gives to do: its moves in their order, what is measured beside or instead of them, or why nothing. */
export function plannedThings(plan: WorkPlan, gauges: readonly string[], next: NextAnswer | null): PlannedThings {
  const { answer, moves, minutes } = plan;
  return {
    answer,
    moves: moves.map((move, i) => thingOfMove(plan, move, gauges[i] ?? "")),
    checks: next === null ? [] : thingsOfAnswer(next),
    measureFirst: plan.measureFirst.length > 0,
    stage: {
      move: `${moves.length === 1 ? "one move" : `${moves.length} moves`}, about ${formatTrimmed(minutes, 0)} minutes`,
      "leave it alone": "none: it is best left alone",
      "measure first": "none before more has been measured",
      "out of reach": "none that would bring all of it in",
    }[answer],
    enough:
      answer === "leave it alone" ? "The work comes out as it is asked, and nothing has to be moved or read." : "",
  };
}

function thingOfMove(plan: Plan, move: PlannedMove, gauge: string): NextThing {
  const { adjuster } = move;
  const most = [...broughtBy(plan, move)].sort((a, b) => gainOf(b) - gainOf(a))[0];
  return {
    title: moveInWords(move).replace(/\.$/, ""),
    why:
      most === undefined
        ? "It is a part of the plan that brings the work in."
        : `It brings the ${lowerFirst(most.demand.title)} from ${showDemand(most.before).value} to ${showDemand(most.after).whole} ${most.demand.unit}; at most ${formatTrimmed(most.demand.limit, 3)} is asked.`,
    minutes: Math.round(adjuster.minutes),
    tools: gauge,
    button: "Show the move",
    path: pathOf("moves", adjuster.id),
  };
}

function gainOf({ demand, before, after }: Brought): number {
  return (before.median - after.median) / demand.limit;
}

/** Every check that an answer names, as something to do. */
export function thingsOfAnswer(answer: NextAnswer): readonly NextThing[] {
  switch (answer.kind) {
    case "check":
      return answer.next.map(({ run, reason }) => thingOfRun(run, reason));
    case "short round":
      return answer.runs.map((run) => thingOfRun(run, run.check.words.settles));
    case "fit to measure":
      return answer.open.map(({ check }) => ({
        title: `Fit to measure: ${lowerFirst(check.words.title)}`,
        why: check.words.settles,
        minutes: check.words.minutes,
        tools: check.words.tools.join(", "),
        button: "Show how it is done",
        path: pathOf("measure", check.id),
      }));
    case "no instrument":
    case "you know enough":
      return [];
  }
}

function thingOfRun(run: RunInReach, why: string): NextThing {
  const { check, setup, objects, minutes } = run;
  const choice = { instrument: setup.instrument.id, objects, options: setup.options };
  return {
    title: `Measure: ${lowerFirst(runTitle(run))}`,
    why,
    minutes,
    tools: setup.instrument.name,
    button: "Show how it is done",
    path: `${pathOf("measure", check.id)}${queryFromChoice(choice)}`,
  };
}

/** What is said of an answer beside its checks. */
export function wordsOfAnswer(answer: NextAnswer): readonly string[] {
  switch (answer.kind) {
    case "you know enough":
      return [`You know enough. ${answer.reason}`];
    case "no instrument":
      return [answer.reason, ...answer.verdicts.map(({ demand, sentence }) => `${demand.title}: ${sentence}`)];
    case "fit to measure":
      return [`The fit-to-measure round comes first. ${answer.reason}`];
    case "short round":
      return [
        `The short round comes first. ${answer.reason}`,
        ...answer.without.map(({ words }) => `${words.title}: none of your tools fits.`),
      ];
    case "check":
      return [];
  }
}

/** A path below the machine's own address; a point would look like the ending of a file's name. */
function pathOf(...parts: readonly string[]): string {
  return parts.map((part) => encodeURIComponent(part).replaceAll(".", "~")).join("/");
}
