import { showChange } from "../core/base/shown-change.ts";
import { type Change, type ChangeVerdict, changesBetween } from "../core/findings/change.ts";
import type { DemandResult } from "../core/work/demand-result.ts";
import { workStateOfEpoch } from "../core/work/work-state.ts";
import type { Assessment } from "./assess.ts";
import { demandResultsIn } from "./plan-for.ts";
import { demandAsJson } from "./plan-json.ts";
import { happeningInWords } from "./take-back.ts";

/** Readings between which nothing is known to have changed the machine, as they are told apart by who compares. */
export interface ReadEpoch {
  readonly stage: number;
  /** Of its first reading. */
  readonly at: number;
  /** What came before it, in words: moves, knocks, a gap of months; empty for the first. */
  readonly after: readonly string[];
  /** Ids of what happened before it. */
  readonly happenings: readonly string[];
}

/** Two epochs side by side. */
export interface Comparison {
  readonly before: ReadEpoch;
  readonly after: ReadEpoch;
  /** All that happened between the two, in order. */
  readonly between: readonly string[];
  readonly changes: readonly Change[];
  readonly demands: readonly { readonly before: DemandResult; readonly after: DemandResult }[];
  readonly chance: { readonly before: number; readonly after: number };
}

/** Epochs in which something was read, in order of time. */
export function readEpochs({ estimate: { problem } }: Assessment): readonly ReadEpoch[] {
  const epochs: ReadEpoch[] = [];
  let after: string[] = [];
  let happenings: string[] = [];
  problem.epochs.forEach((epoch, stage) => {
    if (stage > 0 || epoch.changes.length > 0) {
      after.push(...epoch.changes.map((happening) => happeningInWords(problem.machine, happening)));
      happenings.push(...epoch.changes.map(({ id }) => id));
      if (epoch.driftMonths > 0) after.push(gapInWords(epoch.driftMonths));
    }
    if (epoch.readings.length === 0) return;
    epochs.push({ stage, at: epoch.readings[0].reading.at, after, happenings });
    after = [];
    happenings = [];
  });
  return epochs;
}

function gapInWords(months: number): string {
  if (months < 1.5) return `${Math.max(1, Math.round(months * 4.35))} weeks`;
  return `${Math.round(months)} months`;
}

/** Which epochs are compared: by times, or by what lies between them; the last two where nothing is said. */
export interface CompareChoice {
  /** Milliseconds: the last epoch that had begun by then. */
  readonly from?: number;
  readonly to?: number;
  /** Id of something that happened. */
  readonly around?: string;
}

/** The two epochs that a choice means; null where there are not two, or the choice does not tell them apart. */
export function chosenEpochs(
  epochs: readonly ReadEpoch[],
  { from, to, around }: CompareChoice,
): readonly [ReadEpoch, ReadEpoch] | null {
  const atOrBefore = (time: number) => epochs.filter(({ at }) => at <= time).at(-1);
  if (around !== undefined) {
    const place = epochs.findIndex(({ happenings }) => happenings.includes(around));
    return place > 0 ? [epochs[place - 1], epochs[place]] : null;
  }
  const later = to === undefined ? epochs.at(-1) : atOrBefore(to);
  const earlier = from === undefined ? epochs[epochs.indexOf(later as ReadEpoch) - 1] : atOrBefore(from);
  return earlier !== undefined && later !== undefined && earlier.stage < later.stage ? [earlier, later] : null;
}

/** What moved between two epochs, what stayed, and what the work came out like before and after. */
export function compareEpochs(assessment: Assessment, before: ReadEpoch, after: ReadEpoch): Comparison {
  const { estimate, findings } = assessment;
  const then = demandResultsIn(assessment, workStateOfEpoch(estimate, before.stage));
  const now = demandResultsIn(assessment, workStateOfEpoch(estimate, after.stage));
  const between = readEpochs(assessment).filter(({ stage }) => before.stage < stage && stage <= after.stage);
  return {
    before,
    after,
    between: between.flatMap((epoch) => epoch.after),
    changes: changesBetween(estimate, findings, before.stage, after.stage),
    demands: then.results.map((result, k) => ({ before: result, after: now.results[k] })),
    chance: { before: then.together, after: now.together },
  };
}

/** The same for machines: numbers unrounded. */
export function comparisonAsJson({ before, after, between, changes, demands, chance }: Comparison) {
  const dated = ({ at }: ReadEpoch) => new Date(at).toISOString();
  return {
    before: dated(before),
    after: dated(after),
    between,
    chance,
    findings: changes.map(({ finding, before, after, change, expandedUncertainty, read, verdict }) => ({
      id: finding.id,
      unit: finding.unit,
      before: { ...before, read: read.before },
      after: { ...after, read: read.after },
      change,
      expandedUncertainty,
      verdict,
    })),
    demands: demands.map(({ before, after }) => ({ before: demandAsJson(before), after: demandAsJson(after) })),
  };
}

/** "Read on both sides: 24. 3 of them have moved; …", or that none has, as far as the readings show it. */
export function comparisonInWords({ changes }: Pick<Comparison, "changes">): string {
  const count = (verdict: ChangeVerdict) => changes.filter((change) => change.verdict === verdict).length;
  const unread = count("not read on both sides");
  const read = changes.length - unread;
  if (read === 0) return "Nothing was read on both sides, so nothing is known to have moved or to have stayed.";
  const [moved, stayed, open] = [count("moved"), count("stayed"), count("not known")];
  const what = [
    moved === 0
      ? "None of them has moved by clearly more than is not known of it"
      : `${moved} of them ${moved === 1 ? "has" : "have"} moved`,
    ...(stayed > 0 ? [`${stayed} stayed within half ${stayed === 1 ? "its" : "their"} limit`] : []),
    ...(open > 0 ? [`of ${open} the readings do not say`] : []),
  ];
  return `Read on both sides: ${read}. ${what.join("; ")}.${unread > 0 ? ` Not read on both sides: ${unread}.` : ""}`;
}

/** A change as it is read: before, after and change in one step, each with its doubt, so that they add up. */
export function shownChange({ finding, before, after, expandedUncertainty, read, verdict }: Change) {
  const sign = finding.sided === "two" ? "always" : "when negative";
  return {
    title: finding.title,
    unit: finding.unit,
    ...showChange(before, after, expandedUncertainty, sign),
    verdict,
    read: readInWords(read),
  };
}

/** Which side has no reading that shows it, or too old a one; empty where both have. */
function readInWords({ before, after }: Change["read"]): string {
  if (before) return after ? "" : "not shown by any reading after";
  return after ? "not shown by any reading before" : "not shown by any reading on either side";
}
