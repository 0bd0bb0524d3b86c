import { checkById } from "../core/checks/catalogue.ts";
import { residualPlot } from "../core/drawing/residuals.ts";
import type { Assessment } from "./assess.ts";

/** What a run's readings are away from the fit, in standard deviations, by the stations' numbers. */
export function residualsOfRun({ estimate, trust }: Assessment, runId: string, use: "file" | "page"): string {
  const run = estimate.problem.timeline.runs.find(({ id }) => id === runId);
  const check = run && checkById(run.check);
  const numbers = new Map<string, number>();
  const residuals = trust.rows.flatMap((row) => {
    const { run: owner, station, setup, check: own } = estimate.problem.observations[row.observation];
    if (owner.id !== runId) return [];
    if (numbers.size === 0) for (const [i, { key }] of own.stations(setup).entries()) numbers.set(key, i + 1);
    // A place of the user's own comes after the check's stations.
    if (!numbers.has(station.key)) numbers.set(station.key, numbers.size + 1);
    const number = numbers.get(station.key) as number;
    // A slip among repeats is shown by itself, beside the mean that goes into the fit.
    const slips = row.oddOnes.filter(({ against }) => against === "repeats");
    const mean = { number, inSd: row.studentised, isOdd: row.odd && slips.length === 0 };
    return [mean, ...slips.map(({ inSd }) => ({ number, inSd, isOdd: true }))];
  });
  return residualPlot(check?.words.title ?? runId, residuals, use);
}
