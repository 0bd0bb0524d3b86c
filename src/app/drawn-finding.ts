import { historyPlot } from "../core/drawing/history.ts";
import { sharesPlot } from "../core/drawing/shares.ts";
import type { FindingResult } from "../core/findings/evaluate.ts";
import type { LogEvent } from "../logbook/events.ts";
import type { Assessment } from "./assess.ts";
import { carriersOf } from "./explain.ts";
import { historyInWords } from "./history-in-words.ts";
import { happeningInWords } from "./take-back.ts";

const DAY = 86_400_000;

/** A finding over time with its intervals, and what happened in between. */
/** @param events of the logbook, for the time of day at the place */
export function historyOfFinding(
  assessment: Assessment,
  { finding, limit }: FindingResult,
  events: readonly Pick<LogEvent, "at">[] = [],
): string {
  const { timeline, machine } = assessment;
  const epochs = historyInWords(assessment, finding, events).map(({ at, date, value, low, high }) => {
    return { day: at / DAY, date, value, low, high };
  });
  const happened = timeline.happenings.flatMap((happening) => {
    if (happening.kind === "homed" || happening.kind === "powered-on") return [];
    const kind = happening.kind === "moved" || happening.kind === "skimmed" ? ("move" as const) : ("knock" as const);
    return [{ day: happening.at / DAY, kind, words: happeningInWords(machine, happening).replace(/^knocked: /, "") }];
  });
  const sides = finding.sided === "two" ? ("both" as const) : ("one" as const);
  return historyPlot({
    title: finding.title,
    unit: finding.unit,
    epochs,
    events: happened,
    limit: limit === null ? null : { size: limit, sides },
  });
}

/** Which runs carry a finding, as bars. */
export function carriersOfFinding(assessment: Assessment, result: FindingResult): string {
  const shares = carriersOf(assessment, result).map(({ what, share }) => ({ words: what, share }));
  return sharesPlot(`What carries it: ${result.finding.title}`, shares);
}
