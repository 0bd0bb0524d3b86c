import type { Entry } from "./entry.ts";

/** One or two entries of a station as they stand in a list; `text` writes a number in the unit that the list is in. */
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
