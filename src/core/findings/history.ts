import { sceneAsHomedIn } from "../fit/epoch-scene.ts";
import type { Estimate } from "../fit/estimate.ts";
import { type FindingNumbers, findingNumbers } from "./evaluate.ts";
import type { Finding } from "./finding.ts";

export interface HistoryPoint extends FindingNumbers {
  /** Of the first reading of its epoch. */
  readonly at: number;
}

/**
 * A finding through the epochs, each with all that is known today (late readings and what came after included), by the
 * same road as the finding now: where nothing has happened since the last readings, the history ends with it.
 */
export function historyOf(estimate: Estimate, finding: Finding): readonly HistoryPoint[] {
  return estimate.problem.epochs.flatMap((epoch, stage): HistoryPoint[] => {
    if (epoch.readings.length === 0) return [];
    const { scene, covariance } = sceneAsHomedIn(estimate, stage);
    return [{ at: epoch.readings[0].reading.at, ...findingNumbers(finding, scene, covariance) }];
  });
}
