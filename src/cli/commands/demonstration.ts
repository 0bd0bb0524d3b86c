import { join } from "node:path";
import { type Assessment, assess } from "../../app/assess.ts";
import { nextFor } from "../../app/next-for.ts";
import { planFor } from "../../app/plan-for.ts";
import { stopsFor } from "../../app/plan-stops.ts";
import { answerInWords, chanceInWords } from "../../app/plan-words.ts";
import { openSession } from "../../app/session.ts";
import { workSheetDrawings } from "../../core/drawing/work-drawings.ts";
import { headlineOf } from "../../core/findings/headline.ts";
import { adjustingHead, handsIn } from "../../core/machine/adjusters/cautions.ts";
import type { Plan } from "../../core/planning/plan.ts";
import { workState } from "../../core/work/work-state.ts";
import { loadSolver } from "../../solver/highs.ts";
import { readBytes } from "../logbook-file.ts";
import { sayNext } from "../next-lines.ts";
import { packageFile } from "../package-file.ts";
import { sayCures, sayDemands, sayMovesInShort } from "../plan-lines.ts";
import { accepted } from "../report.ts";
import { counted, say, toned, wrap } from "../terminal.ts";
import { writeExport } from "./export.ts";
import { sayVerdict } from "./findings.ts";
import { sayNumbers } from "./work.ts";

const file = "shared-workshop.jsonl";

/**
 * The whole job on the machine that comes with the program: what the readings mean, what the work comes out like, what to
 * move and where to stop, what to measure next; drawings and the sheet in a folder.
 */
export async function demonstrate(options: { to: string }): Promise<number> {
  const solver = loadSolver();
  const session = accepted(openSession(readBytes(packageFile(`catalog/demonstration/${file}`)), file));
  const assessment = assess(session.timeline);
  const plan = planFor(assessment, await solver);
  saySummary(assessment, plan);
  sayFound(assessment);
  sayWorkOf(assessment, plan);
  sayPlanOf(assessment, plan);
  say(toned("What to measure next", "strong"));
  sayNext(nextFor(assessment, plan), session, file);
  say();
  const count = writeExport(assessment, options.to);
  say(
    wrap(`${count} files are in ${options.to}: open ${join(options.to, "sheet.html")} for the drawing and the list.`),
  );
  say(wrap("Machine and readings are invented. `kilter create --help` says how to begin a logbook of your own."));
  return 0;
}

function saySummary({ timeline, findings }: Assessment, plan: Plan): void {
  const runs = new Set(timeline.readings.map(({ run }) => run)).size;
  say(toned(timeline.machine.name, "strong"));
  say(toned(`${counted(timeline.readings.length, "reading")} in ${counted(runs, "run")}`, "second"));
  say(wrap(headlineOf(findings)));
  say(wrap(answerInWords(plan)));
  say(wrap(chanceInWords(plan)));
  say();
}

function sayFound({ findings }: Assessment): void {
  say(toned("What the readings mean", "strong"));
  for (const verdict of ["out", "not known yet"] as const) sayVerdict(findings, verdict);
  const within = findings.filter(({ verdict }) => verdict === "within").length;
  say(wrap(`${within} others are within; \`kilter findings\` lists all, \`kilter explain\` takes one apart.`));
  say();
}

/** Of each picture what it is about. */
function sayWorkOf({ estimate }: Assessment, plan: Plan): void {
  say(toned("What the work comes out like", "strong"));
  const after = plan.moves.length > 0 ? plan.after : null;
  const rows = workSheetDrawings(workState(estimate), after).flatMap(({ drawing }) =>
    drawing.ok
      ? drawing.value.rows
          .filter(({ weight }) => weight === "main")
          .map((row) => ({ ...row, words: `${drawing.value.title}: ${row.words}` }))
      : [],
  );
  sayNumbers(rows);
  say();
}

function sayPlanOf(assessment: Assessment, plan: Plan): void {
  say(toned("What to move", "strong"));
  if (plan.moves.length > 0) say(wrap(`${adjustingHead} ${handsIn}`));
  sayMovesInShort(plan, stopsFor(assessment, plan));
  say();
  sayDemands(plan);
  sayCures(plan, assessment);
  say();
}
