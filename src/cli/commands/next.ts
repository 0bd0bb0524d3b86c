import { assess } from "../../app/assess.ts";
import { nextAsJson, nextFor } from "../../app/next-for.ts";
import { demandResults } from "../../app/plan-for.ts";
import { openDemandAsJson, whatSettles } from "../../app/what-settles.ts";
import { openLogbook } from "../logbook-file.ts";
import { sayNext, sayWhatSettles } from "../next-lines.ts";
import { say, sayJson, toned } from "../terminal.ts";
import { kindOfWorkFrom } from "../typed-work.ts";

/** What to measure next, for the work that is asked for, and what would settle each demand that is not known yet. */
export function next(file: string, { work, json }: { work?: string; json?: boolean }): number {
  const session = openLogbook(file);
  const kindOfWork = work === undefined ? undefined : kindOfWorkFrom(work);
  const assessment = assess(session.timeline);
  const { results } = demandResults(assessment, kindOfWork);
  const answer = nextFor(assessment, null, kindOfWork);
  const open = whatSettles(assessment, results);
  if (json) {
    sayJson({ ...nextAsJson(answer), settling: open.map(openDemandAsJson) });
    return 0;
  }
  say(toned(session.timeline.machine.name, "strong"));
  sayNext(answer, session, file);
  // Where no instrument helps, the answer has said so of each of those already.
  const said = answer.kind === "no instrument" ? answer.verdicts.map(({ demand: { id } }) => id) : [];
  sayWhatSettles(open.filter(({ demand: { id } }) => !said.includes(id)));
  return 0;
}
