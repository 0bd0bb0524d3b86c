import type { Assessment } from "../app/assess.ts";
import type { PlannedStop } from "../app/plan-stops.ts";
import {
  aboveAllMoves,
  answerInWords,
  broughtInWords,
  chanceInWords,
  holdOutInWords,
  moveInWords,
  ownCautionsOf,
  proofInWords,
  turnedOfMoveInWords,
} from "../app/plan-words.ts";
import { adjustersForTimeline } from "../core/fit/hand-scatter.ts";
import { fasteningOf } from "../core/machine/adjusters/sentence.ts";
import type { Plan, PlannedMove } from "../core/planning/plan.ts";
import { demandTable } from "./demand-table.ts";
import { counted, say, toned, wrap } from "./terminal.ts";

export const nothingAsked = "The work asks for nothing: `kilter demands FILE choose general` names what it asks.";

/** What the plan comes to and how likely it is to do, before anything is taken in hand. */
export function sayPlanHead(plan: Plan): void {
  say(toned(wrap(answerInWords(plan)), "strong"));
  say(wrap(chanceInWords(plan)));
  const proof = proofInWords(plan);
  if (proof !== null) say(wrap(proof));
}

/** Every move in its turn: what the hand does, what it brings, what comes loose with it, where to stop. */
export function sayMoves(plan: Plan, stops: readonly (PlannedStop | null)[]): void {
  const { moves } = plan;
  if (moves.length === 0) return;
  say();
  say(wrap(aboveAllMoves(moves).join(" ")));
  for (const [i, move] of moves.entries()) sayMove(plan, move, i, stops[i] ?? null);
}

/** What a plan would move, clearly not to be done yet. */
export function sayLookAhead(plan: Plan, stops: readonly (PlannedStop | null)[]): void {
  if (plan.moves.length === 0) return;
  say();
  say(toned(wrap("A look ahead, not to be made yet"), "strong"));
  sayMovesInShort(plan, stops);
}

/** Every move in two or three lines: what the hand does, what it brings, where to stop. */
export function sayMovesInShort(plan: Plan, stops: readonly (PlannedStop | null)[]): void {
  for (const [i, move] of plan.moves.entries()) {
    say(wrap(`${i + 1}  ${moveInWords(move)}`, undefined, "   "));
    const brought = broughtInWords(plan, move);
    if (brought !== "") say(wrap(`   Brings: ${brought}.`, undefined, "   "));
    const stop = stops[i] ?? null;
    if (stop !== null) say(wrap(`   ${stop.words}`, undefined, "   "));
  }
}

function sayMove(plan: Plan, move: PlannedMove, i: number, stop: PlannedStop | null): void {
  const { adjuster } = move;
  const line = (text: string) => say(wrap(`   ${text}`, undefined, "   "));
  say();
  say(toned(wrap(`${i + 1}  ${moveInWords(move)}`, undefined, "   "), "strong"));
  const fastening = fasteningOf(adjuster);
  const turned = turnedOfMoveInWords(move);
  if (turned !== null) line(turned);
  line(`${adjuster.letter}, ${adjuster.id}, about ${counted(Math.round(adjuster.minutes), "minute")}.`);
  if (fastening === null) line(sentence(adjuster.fasteners.words));
  else line(`${fastening.loosen} ${fastening.tighten}`);
  if (stop !== null) line(stop.words);
  const brought = broughtInWords(plan, move);
  if (brought !== "") line(`Brings: ${brought}.`);
  const { alsoLoose } = adjuster.whatHolds;
  if (alsoLoose !== null) line(alsoLoose);
  const again = adjuster.readAgain?.checks ?? [];
  if (again.length > 0) line(`To be read again after it: ${again.join(", ")}.`);
  const own = ownCautionsOf(adjuster);
  if (own.length > 0) line(own.join(" "));
}

/** Demands before and after, with the verdict that is to be expected; without moves only as they are. */
export function sayDemands({ demands, moves }: Plan): void {
  if (demands.length === 0) {
    say(nothingAsked);
    return;
  }
  const moved = moves.length > 0;
  say(demandTable(demands.map(({ before, after }) => ({ now: before, after: moved ? after : null }))));
}

/** Demands that hold out, each with what would cure it; what only has to be measured better is said with its check. */
export function sayCures({ demands }: Plan, { machine, timeline }: Assessment): void {
  const adjusters = adjustersForTimeline(machine, timeline);
  for (const planned of demands) {
    const words = planned.cure?.kind === "measure better" ? null : holdOutInWords(planned, adjusters);
    if (words !== null) say(wrap(`${planned.demand.title}: ${words}`, undefined, "  "));
  }
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
