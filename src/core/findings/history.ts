import { sceneOfEpoch } from "../fit/epoch-scene.ts";
import type { Estimate } from "../fit/estimate.ts";
import type { Scene } from "../machine/kinematics.ts";
import { quadraticForm } from "../numerics/symmetric.ts";
import type { Finding } from "./finding.ts";

export interface HistoryPoint {
  readonly at: number;
  readonly value: number;
  readonly expandedUncertainty: number;
  /** What happened before these readings: moved, knocked, skimmed …; "time" for a gap. */
  readonly after: readonly string[];
}

/**
 * A finding through the epochs, each with all that is known today (late readings and what came after included). For a
 * sampled finding the value is that of the most likely state, and U that of its largest sample.
 */
export function historyOf(estimate: Estimate, finding: Finding): readonly HistoryPoint[] {
  return estimate.problem.epochs.flatMap((epoch, stage): HistoryPoint[] => {
    if (epoch.readings.length === 0) return [];
    const { scene, covariance } = sceneOfEpoch(estimate, stage);
    const { value, variance } = valueIn(finding, scene, covariance);
    const after = epoch.changes.map(({ kind }) => kind.replace("-", " "));
    if (epoch.driftMonths > 0) after.push("time");
    return [{ at: epoch.readings[0].reading.at, value, expandedUncertainty: 2 * Math.sqrt(variance), after }];
  });
}

function valueIn(finding: Finding, scene: Scene, covariance: Float64Array): { value: number; variance: number } {
  if (finding.form === "linear") {
    const { value, gradient } = finding.evaluate(scene);
    return { value, variance: quadraticForm(covariance, gradient) };
  }
  const samples = finding.samples(scene);
  const value = finding.reduce(
    samples.map((sample) => sample.value),
    scene.machine,
  );
  return { value, variance: Math.max(...samples.map((sample) => quadraticForm(covariance, sample.gradient))) };
}
