import { covarianceTimes } from "../estimation/elimination.ts";
import type { Estimate } from "./estimate.ts";
import type { Run } from "./timeline.ts";

/** Where the knowledge of something comes from; the shares add up to 1. */
export interface Share {
  /** Null stands for what is usual: the priors, and what is known of changes. */
  readonly run: Run | null;
  readonly share: number;
}

/**
 * Shares of information. The variance of f = g·x is gᵀPg = Σ over rows of (gᵀP a)², a the whitened rows of readings and
 * priors, because P = P(Σ a aᵀ)P. Each row's part is what it carries. `g` is over all variables of the problem.
 */
export function sharesOfInformation(estimate: Estimate, g: Float64Array): readonly Share[] {
  const product = covarianceTimes(estimate.factor, g);
  const byRun = new Map<string | null, number>();
  let total = 0;
  for (const { columns, coefficients, observation } of estimate.rows.flat()) {
    let sum = 0;
    for (let j = 0; j < columns.length; j++) sum += coefficients[j] * product[columns[j]];
    const key = observation < 0 ? null : estimate.problem.observations[observation].run.id;
    byRun.set(key, (byRun.get(key) ?? 0) + sum * sum);
    total += sum * sum;
  }
  const runs = new Map(estimate.problem.timeline.runs.map((run) => [run.id, run]));
  return [...byRun]
    .map(([id, share]) => ({ run: id === null ? null : (runs.get(id) ?? null), share: total > 0 ? share / total : 0 }))
    .sort((a, b) => b.share - a.share);
}
