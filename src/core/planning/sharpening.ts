import type { Estimate } from "../fit/estimate.ts";
import { outlookFrom } from "../fit/expected.ts";
import { onePerLook } from "./next-check.ts";
import type { RunInReach } from "./possible-runs.ts";

/** A run that would tell more of one function of the machine. */
export interface Sharpening {
  readonly run: RunInReach;
  /** Standard uncertainty after the run over that of now. */
  readonly leaves: number;
}

/** A run that leaves more than this of the uncertainty is not named (our choice). */
const WORTH_NAMING = 0.9;

/**
 * Runs that bring down the uncertainty of one function, those that bring it down most first, equals by their minutes;
 * of the ways of doing one check that look at the same thing only the best.
 *
 * @param gradient over all variables of the problem
 */
export function sharpeningRuns(
  estimate: Estimate,
  gradient: Float64Array,
  runs: readonly RunInReach[],
): readonly Sharpening[] {
  const outlook = outlookFrom(estimate, [gradient]);
  const [now] = outlook.now;
  if (!(now > 0)) return [];
  const ranked = runs
    .map((run): Sharpening => ({ run, leaves: Math.sqrt(outlook.after([run])[0] / now) }))
    .filter(({ leaves }) => leaves < WORTH_NAMING)
    .sort((a, b) => a.leaves - b.leaves || a.run.minutes - b.run.minutes);
  return onePerLook(ranked);
}
