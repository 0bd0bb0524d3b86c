import type { Assessment } from "../../app/assess.ts";
import { demandResults } from "../../app/plan-for.ts";
import { chanceInWords, chanceUnlessHeldBack } from "../../app/plan-words.ts";
import { type WorkComesOut, workAsJson } from "../../app/work-json.ts";
import { formatChance, formatTrimmed } from "../../core/base/number-format.ts";
import { intervalBar } from "../../core/drawing/interval-bar.ts";
import { type WorkSheetEntry, workSheetDrawings } from "../../core/drawing/work-drawings.ts";
import type { ProgrammeSolver } from "../../core/planning/integer-programme.ts";
import type { Plan } from "../../core/planning/plan.ts";
import type { DemandResult } from "../../core/work/demand-result.ts";
import { showDemand } from "../../core/work/shown-demand.ts";
import { unreadDemands } from "../../core/work/unread.ts";
import { workState } from "../../core/work/work-state.ts";
import { sentenceFrom } from "./check-pages.ts";
import { assessmentOf, versionOf } from "./held.ts";
import { keptPlan } from "./kept-plan.ts";
import { askedSizes, pictureSizes } from "./picture-sizes.ts";
import type { Answer } from "./protocol.ts";
import type { PictureSize, WorkAsked, WorkDemand, WorkPage, WorkPicture } from "./protocol-work.ts";
import { answerFrom, toldFrom } from "./told.ts";

/** What the work comes out like, as every other way in says it. */
export function workPage(machine: string, asked: WorkAsked, solve: ProgrammeSolver): Answer<WorkPage> {
  return answerFrom(assessmentOf(machine), (assessment) => {
    const plan = asked.after ? keptPlan(machine, assessment, solve, choicesOf(asked)) : null;
    const sizes = pictureSizes(assessment.machine.dimensions);
    const out = comesOut(assessment, asked, plan, askedSizes(asked.sizes, sizes));
    const unread = unreadDemands(
      assessment.estimate,
      out.results.map(({ demand }) => demand),
    );
    return {
      machine: assessment.timeline.machine.name,
      version: versionOf(machine),
      chance: plan ? chanceInWords(plan) : `Chance that all demands are within: ${formatChance(out.together)}.`,
      moved: plan !== null && plan.moves.length > 0,
      nothingMoved:
        plan !== null && plan.moves.length === 0 ? "The plan moves nothing: after it all is as it is now." : "",
      demands: out.results.map((result, k) =>
        demandOf(result, unread.has(result.demand.id), out.after?.results[k] ?? null),
      ),
      pictures: out.pictures.map((entry) => pictureOf(entry, sizes[entry.id])),
      numbers: workAsJson(out),
    };
  });
}

/** A kind of work is named only where another than the logbook's own is asked about: so the same plan is kept once. */
function choicesOf({ kind }: WorkAsked) {
  return kind === null ? {} : { kindOfWork: kind };
}

function comesOut(
  assessment: Assessment,
  { kind }: WorkAsked,
  plan: Plan | null,
  sizes: Parameters<typeof workSheetDrawings>[2],
): WorkComesOut {
  const now = workState(assessment.estimate);
  const moved = plan !== null && plan.moves.length > 0 ? plan.after : null;
  const pictures = workSheetDrawings(now, moved, sizes);
  if (plan === null) return { ...demandResults(assessment, kind ?? undefined), after: null, pictures };
  return {
    results: plan.demands.map(({ before }) => before),
    together: plan.chance.now,
    after: { results: plan.demands.map(({ after }) => after), together: plan.chance.after },
    pictures,
  };
}

function demandOf(result: DemandResult, unread: boolean, after: DemandResult | null): WorkDemand {
  const { demand, median, low, high, verdict } = result;
  const shown = showDemand(result);
  return {
    id: demand.id,
    title: demand.title,
    unit: demand.unit,
    limit: formatTrimmed(demand.limit, 3),
    value: shown.value,
    interval: shown.interval,
    chance: chanceUnlessHeldBack(result),
    verdict,
    unread,
    bar: intervalBar(
      { value: median, low, high, limit: { size: demand.limit, sides: "one" }, verdict },
      demand.title,
      undefined,
      "page",
    ),
    after: after && {
      ...showDemand(after),
      chance: chanceUnlessHeldBack(after),
      verdict: after.verdict,
    },
  };
}

function pictureOf(entry: WorkSheetEntry, sizes: readonly PictureSize[]): WorkPicture {
  const { id, drawing } = entry;
  const words = sentenceFrom(entry.words);
  const told = toldFrom(drawing.diagnostics);
  if (!drawing.ok) return { id, words, title: "", wide: "", narrow: "", rows: [], told, sizes };
  const { title, rows, draw } = drawing.value;
  return {
    id,
    words,
    title,
    wide: draw("wide", "page"),
    narrow: draw("narrow", "page"),
    rows: rows.map(({ words, nowText, afterText }) => ({ words, now: nowText, after: afterText })),
    told,
    sizes,
  };
}
