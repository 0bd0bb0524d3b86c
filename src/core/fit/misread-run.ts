import { covarianceTimes } from "../estimation/elimination.ts";
import type { Estimate } from "./estimate.ts";
import type { Run } from "./timeline.ts";

/** What a whole run would have to be multiplied by, and by how much better it then fits. */
export interface Misread {
  readonly factor: number;
  readonly squaresNow: number;
  readonly squaresThen: number;
}

/**
 * The least sum of squares as a function of one factor f on all readings of a run is a parabola,
 * S(f) = S(1) + 2(f − 1) r·c + (f − 1)²(c·c − gᵀPg), c the run's whitened readings, r the residuals, g = Aᵀc.
 * Only the slips that people make are tried.
 *
 * @param oddest the largest squared residual of the run: what a slip in one reading alone would explain
 * @returns null where no factor makes the whole run fit far better
 */
export function misreadRun(estimate: Estimate, run: Run, oddest: number): Misread | null {
  const g = new Float64Array(estimate.problem.variables.length);
  let rc = 0;
  let cc = 0;
  for (const row of estimate.rows.flat()) {
    if (row.observation < 0 || row.bound) continue;
    const { run: owner, values } = estimate.problem.observations[row.observation];
    if (owner.id !== run.id || values.length === 0) continue;
    const typed = values.reduce((sum, value) => sum + value.typed, 0) / values.length;
    const c = typed / row.sd;
    rc += row.rightSide * c;
    cc += c * c;
    for (let j = 0; j < row.columns.length; j++) g[row.columns[j]] += row.coefficients[j] * c;
  }
  if (cc === 0) return null;
  const product = covarianceTimes(estimate.factor, g);
  let explained = 0;
  for (let i = 0; i < g.length; i++) explained += g[i] * product[i];
  const curvature = Math.max(0, cc - explained);
  const now = estimate.factor.residualSquares;
  const squaresAt = (f: number) => now + 2 * (f - 1) * rc + (f - 1) ** 2 * curvature;
  let best: Misread | null = null;
  for (const slip of SLIPS) {
    const then = squaresAt(slip);
    if (now - then > FAR_BETTER + oddest && (best === null || then < best.squaresThen)) {
      best = { factor: slip * run.factor, squaresNow: now, squaresThen: then };
    }
  }
  return best;
}

const SLIPS = [-1, 25.4, 1 / 25.4, 39.37, 0.0254, 10, 0.1] as const;
// By how much the sum of squares must fall before a whole run counts as misread: e^(−15) in likelihood.
const FAR_BETTER = 30;
