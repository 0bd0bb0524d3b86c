import { type Session, sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import { leavesInWords } from "../../app/typed-leaves.ts";
import { usualStockMm } from "../../app/usual-stock.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { formatTrimmed } from "../../core/base/number-format.ts";
import { adjustersForTimeline } from "../../core/fit/hand-scatter.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { nearestWord } from "../../logbook/nearest-word.ts";
import { appendEvents, openLogbook } from "../logbook-file.ts";
import { adjusterNamed } from "../named-adjuster.ts";
import { accepted, BadInput } from "../report.ts";
import { hereAndNow } from "../surroundings.ts";
import { counted, say, sayJson, wrap } from "../terminal.ts";
import { leavesFrom } from "../typed-words.ts";

const skimAnswers: Readonly<Record<string, boolean | null>> = { yes: true, no: false, ask: null };

/** Whether the bed will be skimmed: the plan then leaves the present surface alone. */
export function decideSkim(file: string, answer: string, options: { by?: string }): number {
  const session = openLogbook(file);
  if (!Object.hasOwn(skimAnswers, answer)) {
    const answers = Object.keys(skimAnswers);
    const data = { word: answer, of: "whether the bed will be skimmed", listed: answers.join(", ") };
    throw new BadInput([refusal("word-unknown", {}, { ...data, meant: nearestWord(answer, answers) ?? "" })]);
  }
  const will = skimAnswers[answer];
  add(file, session, new Stamp(hereAndNow, options.by).event("skim-decided", { will } as never));
  const said = {
    yes: "The bed will be skimmed: what it is now counts for nothing in the plan.",
    no: "The bed stays as it is: no plan proposes to skim it.",
    ask: "A plan may propose to skim the bed.",
  };
  say(wrap(said[answer as keyof typeof said]));
  return 0;
}

/** Shows the leaves that are at hand, or says what they are: "usual" for the usual ones, "none" for no leaf at all. */
export function stock(file: string, words: readonly string[], options: { json?: boolean; by?: string }): number {
  const session = openLogbook(file);
  if (words.length === 0) {
    const { stockMm } = session.timeline.wishes;
    if (options.json) sayJson({ leavesMm: stockMm });
    else say(wrap(stockInWords(stockMm)));
    return 0;
  }
  const [only] = words.length === 1 ? words : [];
  const leavesMm = only === "usual" ? null : only === "none" ? [] : leavesGiven(words);
  const next = add(file, session, new Stamp(hereAndNow, options.by).event("stock-set", { leavesMm } as never));
  if (options.json) sayJson({ leavesMm: next.timeline.wishes.stockMm });
  else say(wrap(stockInWords(next.timeline.wishes.stockMm)));
  return 0;
}

function leavesGiven(words: readonly string[]): readonly number[] {
  const leaves = leavesFrom(words.join(" "), "shims to pack with");
  if (leaves.length > 0) return leaves;
  const expected = "thicknesses in mm, such as 0.5 0.1x4, or none, or usual";
  throw new BadInput([refusal("word-form", {}, { word: words.join(" "), of: "shims to pack with", expected })]);
}

function stockInWords(stockMm: readonly number[] | null): string {
  if (stockMm === null)
    return `You have not said which shims you have: plans take the usual ones, ${leavesInWords(usualStockMm)}. \`kilter stock FILE 0.5 0.1x4\` lists yours.`;
  if (stockMm.length === 0) return "No shim is at hand: plans pack nothing.";
  const sum = stockMm.reduce((total, leaf) => total + leaf, 0);
  return `${counted(stockMm.length, "shim", "shims")} to pack with, ${formatTrimmed(sum, 3)} mm in all: ${leavesInWords(stockMm)}.`;
}

/** Says that an adjuster must stay as it is. */
export function lock(file: string, text: string, options: { because: string; by?: string }): number {
  const session = openLogbook(file);
  const adjuster = adjusterNamed(adjustersForTimeline(session.machine, session.timeline), text);
  const body = { adjuster: adjuster.id, because: options.because };
  add(file, session, new Stamp(hereAndNow, options.by).event("adjuster-locked", body as never));
  say(wrap(`Locked: ${adjuster.words}. No plan moves it until \`kilter unlock\` frees it.`));
  return 0;
}

export function unlock(file: string, text: string, options: { by?: string }): number {
  const session = openLogbook(file);
  const { locks } = session.timeline.wishes;
  const adjuster = adjusterNamed(adjustersForTimeline(session.machine, session.timeline), text);
  if (!locks.has(adjuster.id)) {
    const listed = [...locks.keys()].join(", ");
    throw new BadInput([refusal("adjuster-not-locked", {}, { adjuster: adjuster.id, listed })]);
  }
  add(file, session, new Stamp(hereAndNow, options.by).event("adjuster-unlocked", { adjuster: adjuster.id } as never));
  say(wrap(`Free again: ${adjuster.words}.`));
  return 0;
}

function add(file: string, session: Session, event: LogEvent): Session {
  const next = accepted(sessionWith(session, [event]));
  appendEvents(file, session, [event]);
  return next;
}
