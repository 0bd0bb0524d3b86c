import type { Assessment } from "../app/assess.ts";
import { instrumentKinds } from "../app/catalog.ts";
import { demandResults } from "../app/plan-for.ts";
import { nextChecks } from "../core/planning/next-check.ts";
import type { NextAnswer } from "../core/planning/next-check-answer.ts";
import type { Plan } from "../core/planning/plan.ts";
import type { RunInReach } from "../core/planning/possible-runs.ts";
import { commandOverLines, howToType, wordInShell } from "./how-to-type.ts";
import { say, toned, wrap } from "./terminal.ts";
import { commandForCheck } from "./typed-check.ts";

/** What to measure next: for the machine as it stands, or for what a plan will leave undecided. */
export function nextFor(assessment: Assessment, planned: Plan | null = null, kindOfWork?: string | null): NextAnswer {
  const { estimate, gate, timeline } = assessment;
  const moves = planned !== null && planned.moves.length > 0;
  return nextChecks({
    estimate,
    gate,
    demands: planned ? planned.demands.map(({ after }) => after) : demandResults(assessment, kindOfWork).results,
    ...(moves && { planned: planned.after }),
    willSkim: timeline.wishes.willSkim === true,
    kinds: [...instrumentKinds.values()],
  });
}

/** The answer in words, each check with its minutes, why, and what is typed afterwards. */
export function sayNext(answer: NextAnswer, owner: Pick<Assessment, "machine" | "timeline">, file: string): void {
  switch (answer.kind) {
    case "you know enough":
      say(wrap(`You know enough. ${answer.reason}`));
      return;
    case "no instrument":
      say(wrap(answer.reason));
      for (const { demand, sentence } of answer.verdicts) say(wrap(`  ${demand.title}: ${sentence}`, undefined, "  "));
      return;
    case "fit to measure":
      say(wrap(`The fit-to-measure round comes first. ${answer.reason}`));
      for (const { check, state, where } of answer.open) {
        const place = where.length > 0 ? ` (${where.join(", ")})` : "";
        say(wrap(`  ${check.words.title}, ${check.words.minutes} min: ${state}${place}`, undefined, "    "));
        say(commandOverLines(["kilter check", check.id, wordInShell(file)]));
      }
      return;
    case "short round": {
      say(wrap(`The short round comes first. ${answer.reason}`));
      for (const check of answer.conditions) {
        say(wrap(`  ${check.words.title}, ${check.words.minutes} min`, undefined, "    "));
        say(commandOverLines(["kilter check", check.id, wordInShell(file)]));
      }
      for (const run of answer.runs) {
        say(wrap(`  ${titleOf(run)}, ${run.minutes} min`, undefined, "    "));
        say(commandForCheck(run, file));
      }
      for (const { words } of answer.without) {
        say(wrap(`  ${words.title}: none of your tools fits; \`kilter tools\` lists the kinds.`, undefined, "    "));
      }
      return;
    }
    case "check":
      for (const [i, { run, minutes, reason }] of answer.next.entries()) {
        say(toned(wrap(`${i + 1}  ${titleOf(run)}, ${minutes} min`, undefined, "   "), "strong"));
        say(wrap(`   ${reason}`, undefined, "   "));
        say(commandForCheck(run, file));
      }
      say();
      say(howToType(answer.next[0].run.check, answer.next[0].run.setup, owner, file));
  }
}

/** "Turnaround (axis X)": the check and the answers by which this way of doing it differs from others. */
function titleOf({ check, setup }: RunInReach): string {
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
