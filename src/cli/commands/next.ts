import { assess } from "../../app/assess.ts";
import { nextAsJson, nextFor } from "../../app/next-for.ts";
import { openLogbook } from "../logbook-file.ts";
import { sayNext } from "../next-lines.ts";
import { say, sayJson, toned } from "../terminal.ts";
import { kindOfWorkFrom } from "../typed-work.ts";

/** What to measure next, for the work that is asked for. */
export function next(file: string, { work, json }: { work?: string; json?: boolean }): number {
  const session = openLogbook(file);
  const kindOfWork = work === undefined ? undefined : kindOfWorkFrom(work);
  const answer = nextFor(assess(session.timeline), null, kindOfWork);
  if (json) {
    sayJson(nextAsJson(answer));
    return 0;
  }
  say(toned(session.timeline.machine.name, "strong"));
  sayNext(answer, session, file);
  return 0;
}
