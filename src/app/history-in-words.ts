import type { Finding } from "../core/findings/finding.ts";
import { type HistoryPoint, historyOf } from "../core/findings/history.ts";
import type { LogEvent } from "../logbook/events.ts";
import type { Assessment } from "./assess.ts";
import { readEpochs } from "./compare.ts";
import { momentsInWords } from "./moments.ts";

/** A finding in one epoch, and what came before it. */
export interface DatedPoint extends HistoryPoint {
  /** "2026-09-05", with the time of day where another is of that day. */
  readonly date: string;
  /** Moves, knocks and gaps of time before these readings, in words; empty for the first. */
  readonly after: string;
}

/** @param events of the logbook, for the time of day at the place */
export function historyInWords(
  assessment: Assessment,
  finding: Finding,
  events: readonly Pick<LogEvent, "at">[] = [],
): readonly DatedPoint[] {
  const points = historyOf(assessment.estimate, finding);
  const epochs = readEpochs(assessment);
  const dates = momentsInWords(
    points.map(({ at }) => at),
    events,
  );
  return points.map((point, i) => ({ ...point, date: dates[i], after: epochs[i]?.after.join("; ") ?? "" }));
}
