import { type Assessment, assess } from "../../app/assess.ts";
import { nextFor } from "../../app/next-for.ts";
import { type PlanChoices, planFor, type WorkPlan } from "../../app/plan-for.ts";
import { planAsJson } from "../../app/plan-json.ts";
import { type PlannedStop, stopsFor } from "../../app/plan-stops.ts";
import { type OpenDemand, whatSettles } from "../../app/what-settles.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { adjusterDrawing } from "../../core/drawing/adjuster-drawing.ts";
import { beforeAfterDrawing } from "../../core/drawing/before-after.ts";
import { adjustersForTimeline } from "../../core/fit/hand-scatter.ts";
import type { Plan } from "../../core/planning/plan.ts";
import { loadSolver } from "../../solver/highs.ts";
import { openLogbook } from "../logbook-file.ts";
import { adjusterNamed } from "../named-adjuster.ts";
import { sayNext, sayWhatSettles } from "../next-lines.ts";
import { sayCures, sayDemands, sayLookAhead, sayMoves, sayPlanHead } from "../plan-lines.ts";
import { BadInput, exitStatus } from "../report.ts";
import { say, sayJson, toned, wrap } from "../terminal.ts";
import { gateLines, linesBeforeMoving } from "../trust-lines.ts";
import { leavesFrom } from "../typed-words.ts";
import { kindOfWorkFrom } from "../typed-work.ts";
import { writeInto } from "../written-files.ts";

export interface PlanOptions {
  readonly lock?: readonly string[];
  readonly only?: readonly string[];
  readonly stock?: string;
  readonly skim?: string;
  readonly work?: string;
  readonly lookAhead?: boolean;
  readonly gate?: boolean;
  readonly out?: string;
  readonly json?: boolean;
}

/** The fewest moves that bring the work in, in their order, each with where to stop. */
export async function plan(file: string, options: PlanOptions): Promise<number> {
  const session = openLogbook(file);
  const choices = choicesFrom(session, options);
  const assessment = assess(session.timeline);
  const planned = planFor(assessment, await loadSolver(), choices);
  const stops = stopsFor(assessment, planned);
  if (options.out !== undefined) writePictures(assessment, planned, options.out);
  const mayMove = planned.heldBack === null;
  const open = whatSettles(
    assessment,
    planned.demands.map(({ before, after }) => (mayMove ? after : before)),
    mayMove ? planned : null,
  );
  if (options.json) sayJson(planAsJson(planned, stops, open));
  else sayPlan(assessment, planned, { stops, open, choices, file, out: options.out });
  const allWithin = planned.demands.every(({ after }) => after.verdict === "within");
  return options.gate && !allWithin ? exitStatus.gated : exitStatus.done;
}

interface SaidWith {
  readonly stops: readonly (PlannedStop | null)[];
  readonly open: readonly OpenDemand[];
  readonly choices: PlanChoices;
  readonly file: string;
  readonly out: string | undefined;
}

function sayPlan(assessment: Assessment, planned: WorkPlan, { stops, open, choices, file, out }: SaidWith): void {
  const { machine, timeline } = assessment;
  say(toned(timeline.machine.name, "second"));
  sayPlanHead(planned);
  for (const line of gateLines(assessment)) say(wrap(line, undefined, "  "));
  if (everyLocked(assessment, choices)) say(wrap("Everything is locked, so there is nothing to move."));
  if (planned.heldBack === null && planned.moves.length > 0) {
    for (const line of linesBeforeMoving(assessment)) say(wrap(line, undefined, "  "));
  }
  if (planned.heldBack === null) sayMoves(planned, stops);
  else sayLookAhead(planned, stops);
  say();
  sayDemands(planned);
  sayCures(planned, assessment);
  sayWhatSettles(open);
  if (open.length > 0 || planned.answer === "measure first") {
    say();
    say(
      toned(planned.moves.length === 0 || planned.heldBack !== null ? "Measure this first" : "Measure next", "strong"),
    );
    sayNext(nextFor(assessment, planned), { machine, timeline }, file);
  }
  if (planned.moves.length > 0 && planned.heldBack === null) {
    const [{ adjuster, amount }] = planned.moves;
    const far = adjuster.kind === "add" ? ` --amount ${Number(amount.toFixed(3))}` : "";
    say();
    say(wrap(`When a move has been made: \`kilter done ${file} ${adjuster.id}${far}\`.`));
  }
  if (out !== undefined) say(wrap(`Pictures of it are in ${out}.`));
}

/** Names and words as they were typed, looked up; what is not understood ends the command. */
function choicesFrom(
  { machine, timeline }: ReturnType<typeof openLogbook>,
  { lock, only, stock, skim, work, lookAhead }: PlanOptions,
): PlanChoices {
  const adjusters = adjustersForTimeline(machine, timeline);
  const ids = (texts: readonly string[]) =>
    texts.flatMap((text) => text.split(",")).map((text) => adjusterNamed(adjusters, text).id);
  return {
    ...(lock !== undefined && { locks: ids(lock) }),
    ...(only !== undefined && { only: ids(only) }),
    ...(stock !== undefined && { stockMm: stockFrom(stock) }),
    ...(skim !== undefined && { willSkim: skimFrom(skim) }),
    ...(work !== undefined && { kindOfWork: kindOfWorkFrom(work) }),
    ...(lookAhead !== undefined && { lookAhead }),
  };
}

/** "none", or thicknesses with a comma or a space between them: a comma between two digits of one number stays one. */
function stockFrom(text: string): readonly number[] {
  if (text.trim() === "none") return [];
  const words = text.includes(".") || !text.includes(" ") ? text.replaceAll(/,/g, " ") : text;
  const leaves = leavesFrom(words, "--stock");
  const thick = leaves.find((leaf) => leaf > 20);
  if (leaves.length > 0 && thick === undefined) return leaves;
  const expected = "thicknesses of leaves in mm, such as 0.1,0.2 or 0.1x4, or none";
  throw new BadInput([refusal("word-form", {}, { word: text, of: "--stock", expected })]);
}

function skimFrom(text: string): boolean {
  if (text === "yes" || text === "no") return text === "yes";
  throw new BadInput([refusal("word-unknown", {}, { word: text, of: "--skim", listed: "yes, no", meant: "" })]);
}

function everyLocked({ machine, timeline }: Assessment, { locks = [], only }: PlanChoices): boolean {
  const locked = new Set([...timeline.wishes.locks.keys(), ...locks]);
  const may = only === undefined ? null : new Set(only);
  return adjustersForTimeline(machine, timeline).every(
    ({ id, available }) => !available || locked.has(id) || (may !== null && !may.has(id)),
  );
}

/** One picture a move and one of what all of them bring. */
function writePictures({ machine }: Assessment, { moves, demands }: Plan, folder: string): void {
  const files = moves.map(({ adjuster, amount, leaves }, i) => ({
    name: `move-${i + 1}-${adjuster.id}.svg`,
    text: adjusterDrawing({ machine, adjuster, amount, leaves }),
  }));
  const rows = demands.map(({ demand: { title, unit, limit }, before, after }) => {
    return { title, unit, limit, before, after, verdict: after.verdict };
  });
  writeInto(folder, [...files, { name: "before-and-after.svg", text: beforeAfterDrawing(rows) }]);
}
