import { evaluateFindings } from "../core/findings/evaluate.ts";
import { showFinding } from "../core/findings/shown.ts";
import { stateFrom } from "../core/fit/estimate.ts";
import { changeWithout } from "../core/fit/left-out.ts";
import { type SinceReading, sinceReading } from "../core/fit/since-reading.ts";
import type { RowTrust, Trust } from "../core/fit/trust.ts";
import type { Assessment } from "./assess.ts";

/** A reading that the fit does not believe, with what would change without it. */
export interface OddReading {
  readonly ids: readonly string[];
  readonly check: string;
  readonly run: string;
  readonly station: string;
  readonly away: number;
  readonly unit: "mm" | "mm/m";
  readonly studentised: number;
  /** Whom it contradicts: readings of its own station that were taken again, or what was read elsewhere. */
  readonly against: "repeats" | "rest";
  /** Several readings of one station contradict one another, and nothing tells which of them slipped. */
  readonly isOpen: boolean;
  /** The day on which it was read. */
  readonly date: string;
  /** What has come since: whether it can still be read again as it was. */
  readonly since: SinceReading;
  /** "squareness of Y to X −0.4 instead of −1.2 mm/m", for findings that would change by more than half their U. */
  readonly without: readonly string[];
}

/** The odd ones, the oddest first. One slip pulls on its neighbours: only the oddest of a run is named. */
export function oddReadings(assessment: Assessment): readonly OddReading[] {
  const { trust, estimate } = assessment;
  const odd = trust.rows.filter((row) => row.odd).sort((a, b) => oddness(b) - oddness(a));
  const named = new Set<string>();
  return odd.flatMap((row): OddReading[] => {
    const { run, check, station } = estimate.problem.observations[row.observation];
    if (named.has(run.id)) return [];
    named.add(run.id);
    const [{ reading, away, inSd, against, isOpen }] = row.oddOnes;
    const ids = against === "repeats" && !isOpen ? [reading.id] : row.oddOnes.map((one) => one.reading.id);
    return [
      {
        ids,
        check: check.id,
        run: run.id,
        station: station.words,
        away,
        unit: check.quantity === "slope" ? "mm/m" : "mm",
        studentised: inSd,
        against,
        isOpen,
        date: dayOf(reading.at),
        since: sinceReading(estimate, row.observation),
        without: isOpen ? [] : changesWithout(assessment, row.observation, row.leverage, ids),
      },
    ];
  });
}

/** What is done about it, in a sentence: it is read again only while that can still be done and has not been. */
export function oddRemedy({
  against,
  isOpen,
  since,
  date,
}: Pick<OddReading, "against" | "isOpen" | "since" | "date">): string {
  if (against === "repeats" && !isOpen) return "Withdraw it, with the reason.";
  const which = isOpen ? "the one that slipped" : "this one";
  switch (since.kind) {
    case "nothing":
      return isOpen ? "Read it a third time." : "Read it again.";
    case "read anew":
      return `It is of ${date}, and a run of ${dayOf(since.at)} has read its station anew: withdraw ${which} where the newer one is right, or keep both.`;
    case "changed":
      return `It is of ${date} and cannot be repeated, since ${since.by === "moved" ? "what it hangs on has been moved" : "the machine has been changed"} on ${dayOf(since.at)}: withdraw ${which}, with the reason, or keep it.`;
  }
}

/** "2026-09-05" */
export function dayOf(at: number): string {
  return new Date(at).toISOString().slice(0, 10);
}

/** By how many standard deviations each odd reading stands away, by its id: of repeats only the slip. */
export function oddMarks(trust: Trust): ReadonlyMap<string, number> {
  return new Map(trust.rows.flatMap(({ oddOnes }) => oddOnes.map(({ reading, inSd }) => [reading.id, inSd] as const)));
}

/** What contradicts its own repeats is no guess of the fit's: it comes before what only stands away from the rest. */
function oddness({ oddOnes: [{ inSd, against }] }: RowTrust): number {
  return Math.abs(inSd) * (against === "repeats" ? 1000 : 1);
}

function changesWithout(
  assessment: Assessment,
  observation: number,
  leverage: number,
  ids: readonly string[],
): readonly string[] {
  const { estimate, findings, gate, limits } = assessment;
  const row = estimate.rows.flat().find((r) => r.observation === observation && r.bound === null);
  if (!row) return [];
  const change = changeWithout(estimate, row, leverage, new Set(ids));
  const values = estimate.values.map((value, i) => value + change[i]);
  const moved = { ...estimate, values, state: stateFrom(estimate.problem.present, values) };
  const after = evaluateFindings(moved, limits, gate);
  return findings.flatMap((before, i) => {
    const then = after[i];
    if (Math.abs(then.value - before.value) < before.expandedUncertainty / 2) return [];
    if (Number(showFinding(then).value.replace("−", "-")) === Number(showFinding(before).value.replace("−", "-")))
      return [];
    return [
      `${before.finding.title} ${showFinding(then).value} instead of ${showFinding(before).value} ${before.finding.unit}`,
    ];
  });
}
