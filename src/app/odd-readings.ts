import { evaluateFindings } from "../core/findings/evaluate.ts";
import { showFinding } from "../core/findings/shown.ts";
import { stateFrom } from "../core/fit/estimate.ts";
import { changeWithout } from "../core/fit/trust.ts";
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
  /** "squareness of Y to X −0.4 instead of −1.2 mm/m", for findings that would change by more than half their U. */
  readonly without: readonly string[];
}

/** The odd ones, the oddest first. One slip pulls on its neighbours: only the oddest of a run is named. */
export function oddReadings(assessment: Assessment): readonly OddReading[] {
  const { trust, estimate } = assessment;
  const odd = trust.rows.filter((row) => row.odd).sort((a, b) => Math.abs(b.studentised) - Math.abs(a.studentised));
  const named = new Set<string>();
  return odd.flatMap((row): OddReading[] => {
    const { run, check, station } = estimate.problem.observations[row.observation];
    if (named.has(run.id)) return [];
    named.add(run.id);
    return [
      {
        ids: row.readings.map(({ id }) => id),
        check: check.id,
        run: run.id,
        station: station.words,
        away: row.residual / Math.max(1 - row.leverage, 1e-6),
        unit: check.quantity === "slope" ? "mm/m" : "mm",
        studentised: row.studentised,
        without: changesWithout(assessment, row.observation, row.leverage),
      },
    ];
  });
}

function changesWithout(assessment: Assessment, observation: number, leverage: number): readonly string[] {
  const { estimate, findings, gate, limits } = assessment;
  const row = estimate.rows.flat().find((r) => r.observation === observation && r.bound === null);
  if (!row) return [];
  const change = changeWithout(estimate, row, leverage);
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
