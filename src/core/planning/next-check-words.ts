import { formatTrimmed, showUncertainty } from "../base/number-format.ts";
import type { Check, Setup } from "../checks/check.ts";
import type { Demand } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import type { DecidingRuns, InstrumentVerdict, ServedDemand } from "./next-check-answer.ts";
import { DECIDING_SHARE } from "./next-check-deciding.ts";
import type { RunInReach } from "./possible-runs.ts";

/** Why a check is offered, in one sentence; it names the demand that gains most. */
export function reasonFor([first, ...others]: readonly ServedDemand[]): string {
  const { demand, settles, standardUncertaintyNow, standardUncertaintyAfter } = first;
  const from = `± ${uncertaintyInWords(standardUncertaintyNow)}`;
  const to = `± ${uncertaintyInWords(standardUncertaintyAfter)} ${demand.unit}`;
  const rest =
    others.length === 0 ? "" : `, and helps with ${listed(others.map(({ demand: { title } }) => small(title)))}`;
  return settles
    ? `It settles whether ${limitInWords(demand)}, now known to ${from} and then to ${to}${rest}.`
    : `It brings a decision nearer on whether ${limitInWords(demand)}, now known to ${from} and then to ${to}${rest}.`;
}

export function reasonForEnough(demands: readonly DemandResult[], undecided: readonly Demand[]): string {
  if (demands.length === 0) return "No work has been named whose limits a reading could decide.";
  if (undecided.length === 0) return "All that the work asks is surely within its limit or surely out of it.";
  const lies = undecided.length === 1 ? "lies so close to its limit" : "lie so close to their limits";
  return `${capital(listed(undecided.map(({ title }) => small(title))))} ${lies} that no reading is worth its minutes.`;
}

export function reasonForNoInstrument(unknown: readonly DemandResult[]): string {
  return `Nothing that you have tells more of ${listed(unknown.map(({ demand }) => small(demand.title)))}, and what is known of it decides nothing yet.`;
}

/** What keeps a demand open and which runs would settle it, in one sentence. */
export function verdictInWords(
  verdict: Omit<InstrumentVerdict, "sentence">,
  { value }: Pick<DemandResult, "value">,
  willSkim: boolean,
): string {
  const { demand, open, decides, by, would, beyondReading, leftByMoves } = verdict;
  const { unit } = demand;
  const limit = `${formatTrimmed(demand.limit, 3)} ${unit}`;
  const now = `± ${uncertaintyInWords(verdict.standardUncertaintyNow)}`;
  const then = `± ${uncertaintyInWords(verdict.standardUncertaintyAfter)} ${unit}`;
  if (open === "nothing") return "It is known well enough as it is.";
  if (open === "moves") {
    const left = uncertaintyInWords(leftByMoves);
    return `The moves leave ± ${left} ${unit} of it to chance: what is read again after them settles it.`;
  }
  if (open === "close") {
    const lies = `It lies close to its limit, ${formatTrimmed(value, 2)} ${now} of ${limit}`;
    if (!decides && would !== null) return `${lies}: ${byGetting(would, unit)}.`;
    if (!decides) return `${lies}: no reading settles it.`;
    return `${lies}: ${small(runsInWords(by))} ${by.length === 1 ? "brings" : "bring"} that down to ${then}, which settles it if it stays where it is.`;
  }
  if (decides) {
    const how = by.length === 1 ? "settles" : "together settle";
    return `${runsInWords(by)} ${how} it: known to ${now} now, and to ${then} then.`;
  }
  if (beyondReading > DECIDING_SHARE * demand.limit) {
    const cause = willSkim ? "the skim and the next homing leave" : "the next homing leaves";
    return `No reading decides it: ${cause} ± ${uncertaintyInWords(beyondReading)} to chance, and the limit is ${limit}.`;
  }
  const left =
    by.length === 0
      ? `Nothing that you have tells more of it than ${now}, and the limit is ${limit}`
      : `What you have brings it from ${now} to ${then} at best, by ${small(runsInWords(by))}, and the limit is ${limit}`;
  if (would === null) return `${left}; no instrument listed can decide it either.`;
  return `${left}; ${byGetting(would, unit)}.`;
}

function byGetting({ lacks, runs, standardUncertaintyAfter }: DecidingRuns, unit: string): string {
  const then = `± ${uncertaintyInWords(standardUncertaintyAfter)} ${unit}`;
  return `with ${listed(lacks)} it can be decided, by ${small(runsInWords(runs))}: ${then} then`;
}

/** "Cutter’s axis to the bed (dial indicator; 15 min) and length of travel, X (steel rule; 10 min)" */
function runsInWords(runs: readonly RunInReach[]): string {
  return listed(
    runs.map((run, i) => {
      const { title } = run.check.words;
      const named = [i === 0 ? title : small(title), ...waysOf(run)].join(", ");
      return `${named} (${run.setup.instrument.name}; ${run.minutes} min)`;
    }),
  );
}

/** A way of doing a check. */
interface WayOfDoing {
  readonly check: Pick<Check, "words">;
  readonly setup: Pick<Setup, "options">;
}

/** "Play on turning round (X)": the check and the answers by which this way of doing it differs from others. */
export function runTitle(way: WayOfDoing): string {
  const how = waysOf(way);
  return how.length === 0 ? way.check.words.title : `${way.check.words.title} (${how.join(", ")})`;
}

/** Answers that say nothing without what they are about. */
const saidWithTheirName: ReadonlySet<string> = new Set(["stem", "square"]);

/** The answers by which a way of doing a check differs from others: "stem left or front", "X". */
export function waysOf({ setup }: Pick<WayOfDoing, "setup">): readonly string[] {
  return Object.entries(setup.options).flatMap(([key, answer]) => {
    if (typeof answer !== "string") return [];
    return [saidWithTheirName.has(key) ? `${key} ${answer}` : answer];
  });
}

/** "cutter’s axis to the bed over 200 stays within 0.4 mm" */
function limitInWords({ title, limit, unit }: Demand): string {
  return `${small(title)} stays within ${formatTrimmed(limit, 3)} ${unit}`;
}

/** Twice the standard uncertainty, as it stands behind a value. */
function uncertaintyInWords(standardUncertainty: number): string {
  return showUncertainty(2 * standardUncertainty);
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`;
}

function small(title: string): string {
  return title.charAt(0).toLowerCase() + title.slice(1);
}

function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
