import { historyPlot } from "../core/drawing/history.ts";
import { sharesPlot } from "../core/drawing/shares.ts";
import type { FindingResult } from "../core/findings/evaluate.ts";
import { historyOf } from "../core/findings/history.ts";
import { adjustersOf } from "../core/machine/adjusters/catalogue.ts";
import type { Assessment } from "./assess.ts";
import { carriersOf } from "./explain.ts";

const DAY = 86_400_000;

/** A finding over time with its intervals, and what happened in between. */
export function historyOfFinding(
  { estimate, machine, timeline }: Assessment,
  { finding, limit }: FindingResult,
): string {
  const points = historyOf(estimate, finding);
  const epochs = points.map(({ at, value, expandedUncertainty }) => ({
    day: at / DAY,
    date: new Date(at).toISOString().slice(0, 10),
    value,
    low: value - expandedUncertainty,
    high: value + expandedUncertainty,
  }));
  const letters = new Map(adjustersOf(machine).map(({ id, letter }) => [id, letter]));
  const events = timeline.happenings.flatMap((happening) => {
    if (happening.kind === "homed" || happening.kind === "powered-on") return [];
    const kind = happening.kind === "moved" || happening.kind === "skimmed" ? ("move" as const) : ("knock" as const);
    const words =
      happening.kind === "moved" ? (letters.get(happening.adjuster) ?? "") : happening.kind.replace("-", " ");
    return [{ day: happening.at / DAY, kind, words }];
  });
  const sides = finding.sided === "two" ? ("both" as const) : ("one" as const);
  return historyPlot({
    title: finding.title,
    unit: finding.unit,
    epochs,
    events,
    limit: limit === null ? null : { size: limit, sides },
  });
}

/** Which runs carry a finding, as bars. */
export function carriersOfFinding(assessment: Assessment, result: FindingResult): string {
  const shares = carriersOf(assessment, result).map(({ what, share }) => ({ words: what, share }));
  return sharesPlot(`What carries it: ${result.finding.title}`, shares);
}
