import { type Assessment, assess } from "../app/assess.ts";
import { planFor } from "../app/plan-for.ts";
import { type PlannedStop, stopsFor } from "../app/plan-stops.ts";
import { answerInWords, moveInWords } from "../app/plan-words.ts";
import { formatChance } from "../core/base/number-format.ts";
import { workDrawing } from "../core/drawing/work-drawings.ts";
import { headlineOf } from "../core/findings/headline.ts";
import { handsIn } from "../core/machine/adjusters/cautions.ts";
import type { Plan, PlannedMove } from "../core/planning/plan.ts";
import type { Chronicle } from "../core/planning/wishes.ts";
import { workState } from "../core/work/work-state.ts";
import { loadSolver } from "../solver/highs.ts";
import { lineOf, tones } from "./commands/findings.ts";
import { numbersTable } from "./commands/work.ts";
import { counted, toned, wrap } from "./terminal.ts";

const mostOut = 3;
const pictures = ["square", "circle"] as const;

/**
 * The main job in so many lines: what is out, what a square and a circle come out like, what the plan comes to, and of its
 * moves the first with the reading to stop at, as many as there is room for, one at least.
 */
export async function mainJobLines(timeline: Chronicle, room: number): Promise<readonly string[]> {
  const solver = await loadSolver();
  const assessment = assess(timeline);
  await meanwhile();
  const plan = planFor(assessment, solver);
  await meanwhile();
  const head = [
    ...outLines(assessment),
    ...workLines(assessment, plan),
    ...linesOf(wrap(`${answerInWords(plan)} ${chanceLine(plan)}`)),
  ];
  return [...head, ...moveLines(plan, stopsFor(assessment, plan), room - head.length)];
}

/** Whoever asks the server for something while this goes on is answered in between. */
function meanwhile(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}

function outLines({ timeline, findings }: Assessment): readonly string[] {
  const read = counted(timeline.readings.length, "reading");
  const judged = findings.filter(({ verdict }) => verdict !== null);
  const out = judged.filter(({ verdict }) => verdict === "out");
  if (out.length === 0) return linesOf(wrap(`${read}. ${headlineOf(findings)}`));
  const open = judged.filter(({ verdict }) => verdict === "not known yet").length;
  const rest = `${open} not known yet, ${judged.length - out.length - open} within`;
  return [
    ...linesOf(wrap(`${read}, ${judged.length} things judged: ${out.length} out, ${rest}.`)),
    ...out.slice(0, mostOut).map((result) => toned(lineOf(result), tones.out)),
    ...(out.length > mostOut ? [`  and ${out.length - mostOut} more that are out`] : []),
  ];
}

/** Of each picture what it is about. */
function workLines({ estimate }: Assessment, plan: Plan): readonly string[] {
  const now = workState(estimate);
  const after = plan.moves.length > 0 ? plan.after : null;
  const numbers = pictures.flatMap((id) => {
    const drawing = workDrawing(id, now, after);
    if (!drawing.ok) return [];
    const { title, rows } = drawing.value;
    return rows.filter(({ weight }) => weight === "main").map((row) => ({ ...row, words: `${title}: ${row.words}` }));
  });
  return numbers.length === 0 ? [] : linesOf(numbersTable(numbers));
}

function chanceLine({ chance: { now, after }, moves }: Plan): string {
  const then = moves.length > 0 ? `, ${formatChance(after)} after` : "";
  return `Chance that all demands are within: ${formatChance(now)} now${then}.`;
}

function moveLines({ moves }: Plan, stops: readonly (PlannedStop | null)[], room: number): readonly string[] {
  if (moves.length === 0) return [];
  const lines = linesOf(wrap(handsIn));
  for (const [i, move] of moves.entries()) {
    const next = linesOfMove(move, i, stops[i] ?? null);
    const further = i + 1 < moves.length ? 1 : 0;
    if (i > 0 && lines.length + next.length + further > room)
      return [...lines, `Then ${counted(moves.length - i, "more move")}; the page has all of them, with pictures.`];
    lines.push(...next);
  }
  return lines;
}

function linesOfMove(move: PlannedMove, i: number, stop: PlannedStop | null): readonly string[] {
  return [
    ...linesOf(wrap(`${i + 1}  ${moveInWords(move)}`, undefined, "   ")),
    ...(stop === null ? [] : linesOf(wrap(`   ${firstSentence(stop.words)}`, undefined, "   "))),
  ];
}

/** What is good enough beside the reading itself stands on the page. */
function firstSentence(words: string): string {
  return /^.*?\.(?= [A-Z]|$)/.exec(words)?.[0] ?? words;
}

function linesOf(text: string): string[] {
  return text.split("\n");
}
