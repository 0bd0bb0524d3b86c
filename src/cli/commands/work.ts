import { type Assessment, assess } from "../../app/assess.ts";
import { demandResults, planFor, type WorkPlan } from "../../app/plan-for.ts";
import { chanceInWords } from "../../app/plan-words.ts";
import { workAsJson } from "../../app/work-json.ts";
import { formatChance } from "../../core/base/number-format.ts";
import { type WorkSheetEntry, workSheetDrawings } from "../../core/drawing/work-drawings.ts";
import type { WorkRow } from "../../core/drawing/work-rows.ts";
import type { DemandResult } from "../../core/work/demand-result.ts";
import { workState } from "../../core/work/work-state.ts";
import { loadSolver } from "../../solver/highs.ts";
import { demandTable } from "../demand-table.ts";
import { openLogbook } from "../logbook-file.ts";
import { nothingAsked } from "../plan-lines.ts";
import { exitStatus } from "../report.ts";
import { say, sayJson, table, toned, wrap } from "../terminal.ts";
import { gateLines } from "../trust-lines.ts";
import { kindOfWorkFrom } from "../typed-work.ts";
import { writeInto } from "../written-files.ts";

export interface WorkOptions {
  readonly kind?: string;
  readonly after?: boolean;
  readonly gate?: boolean;
  readonly out?: string;
  readonly json?: boolean;
}

/** What the work comes out like on the machine as it stands and, if asked for, after the plan. */
export async function work(file: string, options: WorkOptions): Promise<number> {
  const session = openLogbook(file);
  const kindOfWork = options.kind === undefined ? undefined : kindOfWorkFrom(options.kind);
  const assessment = assess(session.timeline);
  const plan = options.after
    ? planFor(assessment, await loadSolver(), kindOfWork === undefined ? {} : { kindOfWork })
    : null;
  const { results, together } = plan
    ? { results: plan.demands.map(({ before }) => before), together: plan.chance.now }
    : demandResults(assessment, kindOfWork);
  const after = plan && { results: plan.demands.map((planned) => planned.after), together: plan.chance.after };
  const moved = plan !== null && plan.moves.length > 0 ? plan.after : null;
  const pictures = workSheetDrawings(workState(assessment.estimate), moved);
  if (options.out !== undefined) writeInto(options.out, pictureFiles(pictures));
  if (options.json) sayJson(workAsJson({ results, together, after, pictures }));
  else sayWork(assessment, results, together, pictures, plan, options.out);
  const decisive = after?.results ?? results;
  return options.gate && decisive.some(({ verdict }) => verdict !== "within") ? exitStatus.gated : exitStatus.done;
}

function sayWork(
  assessment: Assessment,
  results: readonly DemandResult[],
  together: number,
  pictures: readonly WorkSheetEntry[],
  plan: WorkPlan | null,
  out: string | undefined,
): void {
  say(toned(assessment.timeline.machine.name, "strong"));
  say(wrap(plan ? chanceInWords(plan) : `Chance that all demands are within: ${formatChance(together)}.`));
  for (const line of gateLines(assessment)) say(wrap(line, undefined, "  "));
  if (plan !== null && plan.moves.length === 0) {
    const why =
      plan.heldBack === null ? "The plan moves nothing" : "Nothing is moved before that round has been passed";
    say(wrap(`${why}: after it all is as it is now.`));
  }
  say();
  sayResults(results, plan?.demands.map(({ after }) => after) ?? null);
  for (const { drawing } of pictures) {
    if (!drawing.ok) continue;
    const { title, rows } = drawing.value;
    say();
    say(toned(title, "strong"));
    sayNumbers(rows.filter(({ weight }) => weight !== "lesser"));
  }
  say();
  say(toned(wrap("± covers 95 of 100 cases, and the next homing is counted in."), "second"));
  if (out !== undefined) say(wrap(`The pictures are in ${out}.`));
}

/** Numbers of a picture, as things stand and after the plan. */
export function sayNumbers(rows: readonly WorkRow[]): void {
  say(numbersTable(rows));
}

export function numbersTable(rows: readonly WorkRow[]): string {
  return table(
    [
      { head: "mm", gives: true },
      { head: "now", right: true },
      { head: "after", right: true },
    ],
    rows.map(({ words, nowText, afterText }) => [words, nowText, afterText ?? ""]),
  );
}

/** Demands with the interval of 95 %; after the plan the verdict that is to be expected. */
export function sayResults(results: readonly DemandResult[], after: readonly DemandResult[] | null): void {
  if (results.length === 0) {
    say(nothingAsked);
    return;
  }
  say(demandTable(results.map((now, k) => ({ now, after: after?.[k] ?? null }))));
}

function pictureFiles(
  pictures: readonly WorkSheetEntry[],
): readonly { readonly name: string; readonly text: string }[] {
  return pictures.flatMap(({ id, drawing }) =>
    drawing.ok ? [{ name: `${id}.svg`, text: drawing.value.draw("wide", "file") }] : [],
  );
}
