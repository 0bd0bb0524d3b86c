import { formatTrimmed } from "../base/number-format.ts";
import type { Demand } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import type { InstrumentVerdict, ServedDemand } from "./next-check-answer.ts";
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

/** Whether what somebody owns can decide a demand, in one sentence. */
export function verdictInWords(verdict: Omit<InstrumentVerdict, "sentence">, willSkim: boolean): string {
  const { demand, decides, by, would, beyondReading, standardUncertaintyAfter } = verdict;
  const limit = `${formatTrimmed(demand.limit, 3)} ${demand.unit}`;
  if (decides && by.length === 0) return "It is known well enough as it is.";
  if (decides) return `Your ${instrumentsIn(by)} can decide it, by ${checksIn(by)}.`;
  if (beyondReading > DECIDING_SHARE * demand.limit) {
    const cause = willSkim ? "the skim and the next homing leave" : "the next homing leaves";
    return `No reading decides it: ${cause} ± ${uncertaintyInWords(beyondReading)} to chance, and the limit is ${limit}.`;
  }
  const left = `What you have leaves ± ${uncertaintyInWords(standardUncertaintyAfter)} in doubt, and the limit is ${limit}`;
  if (would === null) return `${left}; no instrument listed can decide it either.`;
  return `${left}; with ${listed(would.lacks)} it can be decided, by ${checksIn(would.runs)}.`;
}

function instrumentsIn(runs: readonly RunInReach[]): string {
  return listed([...new Set(runs.map(({ setup }) => setup.instrument.name))]);
}

function checksIn(runs: readonly RunInReach[]): string {
  return listed([...new Set(runs.map(({ check }) => small(check.words.title)))]);
}

/** "tram over 200 stays within 0.4 mm" */
function limitInWords({ title, limit, unit }: Demand): string {
  return `${small(title)} stays within ${formatTrimmed(limit, 3)} ${unit}`;
}

/** Twice the standard uncertainty, to two digits. */
function uncertaintyInWords(standardUncertainty: number): string {
  const u = 2 * standardUncertainty;
  const digits = u > 0 ? Math.min(4, Math.max(0, 1 - Math.floor(Math.log10(u)))) : 0;
  return formatTrimmed(u, digits);
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
