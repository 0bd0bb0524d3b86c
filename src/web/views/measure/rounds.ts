import type { CheckEntry, CheckList } from "../../worker/protocol.ts";

/** A round of checks that are done one after the other, at an address of its own. */
export interface Round {
  readonly id: "fit-to-measure" | "short-round";
  readonly title: string;
  readonly words: string;
  readonly checks: readonly CheckEntry[];
}

export function roundsOf(list: CheckList): readonly Round[] {
  return [
    {
      id: "fit-to-measure",
      title: "Fit to measure",
      words: `${inWords(list.fitToMeasure.length)} looks, pushes and counts that come before everything else. A machine that is loose somewhere gives readings that mean nothing, so no finding is called within until they are passed.`,
      checks: list.fitToMeasure,
    },
    {
      id: "short-round",
      title: "Short round",
      words: "About an hour, and most of what matters to the work is known.",
      checks: list.shortRound,
    },
  ];
}

/** The round that a check belongs to; null for every other check. */
export function roundOfCheck(list: CheckList, check: string): Round | null {
  return roundsOf(list).find(({ checks }) => checks.some(({ id }) => id === check)) ?? null;
}

export function isDone({ state }: CheckEntry): boolean {
  return state === "passed" || state === "taken";
}

const numbers = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten"];

function inWords(count: number): string {
  return numbers[count] ?? String(count);
}
