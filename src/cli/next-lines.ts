import type { Assessment } from "../app/assess.ts";
import type { OpenDemand } from "../app/what-settles.ts";
import type { NextAnswer } from "../core/planning/next-check-answer.ts";
import { runTitle } from "../core/planning/next-check-words.ts";
import { commandOverLines, howToType, wordInShell } from "./how-to-type.ts";
import { say, toned, wrap } from "./terminal.ts";
import { commandForCheck } from "./typed-check.ts";

/** What would settle each demand that is not known yet, a sentence a demand. */
export function sayWhatSettles(open: readonly OpenDemand[]): void {
  if (open.length === 0) return;
  say();
  say(toned(wrap("What settles what is not known yet"), "strong"));
  for (const { demand, sentence } of open) say(wrap(`  ${demand.title}: ${sentence}`, undefined, "  "));
  say(toned(wrap("± covers 95 of 100 cases: twice the standard uncertainty."), "second"));
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
        say(wrap(`  ${runTitle(run)}, ${run.minutes} min`, undefined, "    "));
        say(commandForCheck(run, file));
      }
      for (const { words } of answer.without) {
        say(wrap(`  ${words.title}: none of your tools fits; \`kilter tools\` lists the kinds.`, undefined, "    "));
      }
      return;
    }
    case "check":
      for (const [i, { run, minutes, reason }] of answer.next.entries()) {
        say(toned(wrap(`${i + 1}  ${runTitle(run)}, ${minutes} min`, undefined, "   "), "strong"));
        say(wrap(`   ${reason}`, undefined, "   "));
        say(commandForCheck(run, file));
      }
      say();
      say(howToType(answer.next[0].run.check, answer.next[0].run.setup, owner, file));
  }
}
