import { assess } from "../../app/assess.ts";
import {
  type Comparison,
  chosenEpochs,
  compareEpochs,
  comparisonAsJson,
  comparisonInWords,
  type ReadEpoch,
  readEpochs,
  shownChange,
} from "../../app/compare.ts";
import { momentsInWords } from "../../app/moments.ts";
import { refusal } from "../../core/base/diagnostic.ts";
import { formatChance } from "../../core/base/number-format.ts";
import { demandTable } from "../demand-table.ts";
import { openLogbook } from "../logbook-file.ts";
import { BadInput } from "../report.ts";
import { say, sayJson, table, toned, wrap } from "../terminal.ts";
import { momentFrom } from "../typed-words.ts";

export interface CompareOptions {
  readonly from?: string;
  readonly to?: string;
  readonly around?: string;
  readonly json?: boolean;
}

/** Before and after: what moved, what stayed, and what the work came out like. */
export function compare(file: string, options: CompareOptions): number {
  const { timeline, logbook } = openLogbook(file);
  const assessment = assess(timeline);
  const epochs = readEpochs(assessment);
  const dates = momentsInWords(
    epochs.map(({ at }) => at),
    logbook.events,
  );
  const around = options.around && happeningEnding(epochs, options.around);
  const chosen = chosenEpochs(epochs, {
    ...(options.from !== undefined && { from: timeFrom(options.from, "--from") }),
    ...(options.to !== undefined && { to: timeFrom(options.to, "--to") }),
    ...(around && { around }),
  });
  if (chosen === null) {
    throw new BadInput([refusal("compare-needs-two", {}, { listed: dates.length === 0 ? "none" : dates.join(", ") })]);
  }
  const comparison = compareEpochs(assessment, ...chosen);
  if (options.json) sayJson(comparisonAsJson(comparison));
  else sayComparison(comparison, (epoch) => dates[epochs.indexOf(epoch)]);
  return 0;
}

function happeningEnding(epochs: ReturnType<typeof readEpochs>, text: string): string {
  const named = epochs.flatMap(({ happenings }) => happenings.filter((id) => id.endsWith(text)));
  if (named.length === 1) return named[0];
  throw new BadInput([
    named.length === 0
      ? refusal("happening-not-there", {}, { text })
      : refusal("happening-ambiguous", {}, { text, count: named.length }),
  ]);
}

/** A day counts to its end. */
function timeFrom(text: string, option: string): number {
  const moment = momentFrom(text, option);
  return /^\d{4}-\d\d-\d\d$/.test(text) ? moment + 12 * 3_600_000 - 1 : moment;
}

function sayComparison(comparison: Comparison, dateOf: (epoch: ReadEpoch) => string): void {
  const { before, after, between, changes, demands, chance } = comparison;
  say(toned(wrap(comparisonInWords(comparison)), "strong"));
  if (between.length > 0) say(wrap(`In between: ${between.join("; ")}.`));
  say();
  const heads = [
    { head: "finding", gives: true },
    { head: `${dateOf(before)} ± U`, right: true },
  ] as const;
  say(
    table(
      [
        ...heads,
        { head: `${dateOf(after)} ± U`, right: true },
        { head: "change ± U", right: true },
        { head: "it has" },
      ],
      changes
        .filter(({ verdict }) => verdict === "moved" || verdict === "stayed")
        .map((change) => {
          const { title, unit, before, after, change: by, verdict } = shownChange(change);
          return [`${title}, ${unit}`, before, after, by, verdict];
        }),
    ),
  );
  const open = changes.filter(({ verdict }) => verdict === "not known");
  if (open.length > 0) say(wrap(`Not known: ${open.map(({ finding }) => finding.title).join("; ")}.`));
  sayUnread(changes);
  if (demands.length === 0) return;
  say();
  say(
    wrap(
      `Chance that all demands are within: ${formatChance(chance.before)} before, ${formatChance(chance.after)} after.`,
    ),
  );
  say(
    demandTable(
      demands.map(({ before, after }) => ({ now: before, after })),
      { now: "before", after: "after", verdict: "it is" },
    ),
  );
}

/** Where nothing that was read shows them, nothing is said of what they did. */
function sayUnread(changes: Comparison["changes"]): void {
  const unread = changes.filter(({ verdict }) => verdict === "not read on both sides").map(shownChange);
  const lacking = [...new Set(unread.map(({ read }) => read))].map((side) => {
    const titles = unread.filter(({ read }) => read === side).map(({ title }) => title);
    return `${side}: ${titles.join("; ")}.`;
  });
  if (unread.length > 0) say(wrap("Not read on both sides:"));
  for (const line of lacking) say(wrap(`  ${line}`, undefined, "  "));
}
