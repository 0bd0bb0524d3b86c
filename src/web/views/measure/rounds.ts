import type { CheckEntry, CheckList } from "../../worker/protocol.ts";
import { queryFromChoice } from "./setup-query.ts";

/** A round of checks that are done one after the other, at an address of its own. */
export interface Round {
  readonly id: "fit-to-measure" | "short-round";
  readonly title: string;
  readonly words: string;
  readonly cards: readonly CheckEntry[];
}

export function roundsOf(list: CheckList): readonly Round[] {
  return [
    {
      id: "fit-to-measure",
      title: "Fit to measure",
      words: `${inWords(list.fitToMeasure.length)} looks, pushes and counts that come before everything else. A machine that is loose somewhere gives readings that mean nothing, so no finding is called within until they are passed.`,
      cards: list.fitToMeasure,
    },
    {
      id: "short-round",
      title: "Short round",
      words: "About an hour, and most of what matters to the work is known.",
      cards: list.shortRound,
    },
  ];
}

/** The card that comes next, and its round; null where both rounds are done. */
export function nextCardOf(list: CheckList): { readonly round: Round; readonly card: CheckEntry } | null {
  for (const round of roundsOf(list)) {
    const card = round.cards.find(({ key }) => key === list.next);
    if (card) return { round, card };
  }
  return null;
}

/** Where a card is done: the query of its set-up, "?" included where there is anything. */
export function setUpOf({ options }: CheckEntry): string {
  return queryFromChoice({ options });
}

export function isDone({ state }: CheckEntry): boolean {
  return state === "passed" || state === "taken";
}

const numbers = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten"];

function inWords(count: number): string {
  return numbers[count] ?? String(count);
}
