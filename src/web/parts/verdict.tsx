import type { Verdict } from "../../core/findings/evaluate.ts";

/** A verdict by symbol, word and colour: the symbol is a small copy of the interval's bar. */
export function VerdictMark({ verdict, word = verdict }: { verdict: Verdict; word?: string }) {
  return (
    <span class={`verdict ${classOf(verdict)}`}>
      <VerdictSymbol verdict={verdict} />
      {word}
    </span>
  );
}

export function VerdictSymbol({ verdict }: { verdict: Verdict }) {
  return (
    <svg class="dwg" viewBox="0 0 28 16" aria-hidden="true">
      <path class="wide" d={verdict === "within" ? "M5 1V15M23 1V15" : "M3 1V15M17 1V15"} />
      {verdict === "within" && <circle class="within" cx="14" cy="8" r="4" />}
      {verdict === "out" && <path class="out" d="M24 4L28 8L24 12L20 8z" />}
      {verdict === "not known yet" && (
        <>
          <path class="wide" d="M11 8H28" />
          <circle class="wide unknown" cx="14" cy="8" r="3.5" />
        </>
      )}
    </svg>
  );
}

export function classOf(verdict: Verdict | null): string {
  return verdict === "not known yet" || verdict === null ? "unknown" : verdict;
}
