import { assessmentOf, labelOf, plannedThings, versionOf } from "./held.ts";
import { thingsToDo } from "./next-thing.ts";
import type { Answer } from "./protocol.ts";
import type { NextPage } from "./protocol-moves.ts";
import { answerFrom } from "./told.ts";

/** So many things are said beside the first. */
const SHOWN = 4;

/** What to do now and what then, as far as it is known without working out a plan. */
export function nextPage(machine: string): Answer<NextPage> {
  return answerFrom(assessmentOf(machine), (assessment): NextPage => {
    const planned = plannedThings(machine);
    const { things, asksPlan, wouldPlan } = thingsToDo(assessment, planned);
    const [now = null, ...afterwards] = things;
    return {
      machine: labelOf(machine).name,
      version: versionOf(machine),
      now,
      afterwards: afterwards.slice(0, SHOWN),
      nothing: planned?.enough || "Everything that has a limit is within, and nothing waits to be read.",
      planned: planned !== null,
      asksPlan,
      wouldPlan,
    };
  });
}
