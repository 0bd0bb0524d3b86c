import type { FindingResult } from "./evaluate.ts";
import { meaningInWords } from "./shown.ts";

const numbers = ["None", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine"] as const;

/** What the whole list says in one line: how many are out and which, else how many are not known yet. */
export function headlineOf(results: readonly FindingResult[]): string {
  const judged = results.filter(({ verdict }) => verdict !== null);
  const out = judged.filter(({ verdict }) => verdict === "out");
  const open = judged.filter(({ verdict }) => verdict === "not known yet");
  if (judged.length === 0) return "No finding has a limit to be judged by.";
  if (out.length === 0) {
    return open.length === 0
      ? "Everything that has a limit is within it."
      : `Nothing is out; ${count(open.length).toLowerCase()} of ${judged.length} ${open.length === 1 ? "is" : "are"} not known yet.`;
  }
  const named = out
    .slice(0, 3)
    .map(({ finding }) => finding.title.toLowerCase().replace(/\bx\b|\by\b|\bz\b/g, (axis) => axis.toUpperCase()));
  const more = out.length > 3 ? `, and ${out.length - 3} more` : "";
  return `${count(out.length)} of ${judged.length} ${out.length === 1 ? "is" : "are"} out: ${named.join("; ")}${more}.`;
}

/** What the first that is out means at the machine, for where nothing else says it; empty where nothing is out. */
export function headlineMeaning(results: readonly FindingResult[]): string {
  const out = results.find(({ verdict }) => verdict === "out");
  return out === undefined ? "" : meaningInWords(out);
}

function count(n: number): string {
  return numbers[n] ?? String(n);
}
