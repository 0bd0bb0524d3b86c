import { formatNumber, formatTrimmed } from "../base/number-format.ts";
import type { Entry } from "./entry.ts";

/** How the numbers of a list are written: each with as many decimals, so that they stand under one another. */
export function writtenAlike(entries: readonly Entry[]): (value: number) => string {
  let decimals = 0;
  const count = (value: number) => {
    decimals = Math.max(decimals, formatTrimmed(value, MOST_DECIMALS).split(".")[1]?.length ?? 0);
    return "";
  };
  for (const entry of entries) entryInWords(entry, count);
  return (value) => formatNumber(value, decimals);
}

/** In the core's units nothing is read finer by hand. */
const MOST_DECIMALS = 4;

/** The entries of a station as a person reads them, each by its name where there are two. `text` writes a number. */
export function entriesByName(
  entries: readonly Entry[],
  { entries: names, readsSecondFirst }: NamedEntries,
  text: (value: number) => string,
): string {
  const words = entries.map((entry, i) => {
    const name = entries.length === 2 ? `${names?.[i] ?? ""} ` : "";
    const said =
      entry.form === "interval" ? `${text(entry.goes)} to ${text(entry.doesNotGo)}` : entryInWords(entry, text);
    return name + said;
  });
  return (readsSecondFirst ? words.reverse() : words).join(", ");
}

/** What a check says of the two entries of a station. */
interface NamedEntries {
  readonly entries?: readonly [first: string, second: string];
  readonly readsSecondFirst?: boolean;
}

/** One or two entries of a station as they are typed; `text` writes a number in the unit that the list is in. */
export function entriesInWords(entries: readonly Entry[], text: (value: number) => string): string {
  return entries.map((entry) => entryInWords(entry, text)).join(" : ");
}

function entryInWords(entry: Entry, text: (value: number) => string): string {
  switch (entry.form) {
    case "value":
      return text(entry.value);
    case "interval":
      return `${text(entry.goes)} / ${text(entry.doesNotGo)}`;
    case "atLeast":
      return `${text(entry.bound)} goes`;
    case "atMost":
      return `${text(entry.bound)} does not go`;
    case "verdict":
      return entry.passed ? "yes" : "no";
  }
}
