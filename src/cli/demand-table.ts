import { chanceUnlessHeldBack } from "../app/plan-words.ts";
import { formatTrimmed } from "../core/base/number-format.ts";
import type { DemandResult, DemandVerdict } from "../core/work/demand-result.ts";
import { showDemand } from "../core/work/shown-demand.ts";
import { type Tone, table } from "./terminal.ts";

/** A demand as it stands, and where something is done or has happened in between, as it stands then. */
export interface DemandLine {
  readonly now: DemandResult;
  readonly after: DemandResult | null;
}

/** What the two values of a demand are called, and the verdict on the second of them. */
export interface DemandHeads {
  readonly now: string;
  readonly after: string;
  readonly verdict: string;
}

const planned: DemandHeads = { now: "now", after: "after", verdict: "expected" };

/** Demands with the interval of 95 %, the last verdict and its chance. */
export function demandTable(lines: readonly DemandLine[], heads: DemandHeads = planned): string {
  const hasAfter = lines.some(({ after }) => after !== null);
  const shown = lines.map(({ now, after }) => after ?? now);
  return table(
    [
      { head: "" },
      { head: "demand", gives: true },
      { head: "at most", right: true },
      { head: heads.now, right: true },
      { head: "chance", right: true },
      { head: hasAfter ? heads.verdict : "" },
    ],
    lines.map(({ now, after }, k) => [
      symbols[shown[k].verdict],
      // Beside one another there is no room for both on a usual terminal.
      after === null
        ? now.demand.title
        : `${now.demand.title}\n  ${heads.now} ${showDemand(now).short}, ${heads.after} ${showDemand(after).short}`,
      `${formatTrimmed(now.demand.limit, 3)} ${now.demand.unit}`,
      hasAfter ? "" : showDemand(now).short,
      chanceUnlessHeldBack(shown[k]),
      shown[k].verdict,
    ]),
    shown.map(({ verdict }) => tones[verdict]),
  );
}

const symbols: Readonly<Record<DemandVerdict, string>> = { within: "●", out: "◆", "not known yet": "○" };

const tones: Readonly<Record<DemandVerdict, Tone | null>> = { within: "within", out: "out", "not known yet": null };
