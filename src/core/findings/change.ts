import { type EpochScene, sceneOfEpoch, varianceAcrossEpochs } from "../fit/epoch-scene.ts";
import type { Estimate } from "../fit/estimate.ts";
import type { Scene } from "../machine/kinematics.ts";
import type { Finding } from "./finding.ts";

/** "moved": by clearly more than is not known of it. "stayed": whatever it did is small beside its limit. */
export type ChangeVerdict = "moved" | "stayed" | "not known";

/** A finding in two epochs, in its own unit. */
export interface Change {
  readonly finding: Finding;
  readonly before: number;
  readonly after: number;
  /** After less before. */
  readonly change: number;
  /** Of the change: what both values share, as a square's own error, is no part of it. */
  readonly expandedUncertainty: number;
  readonly verdict: ChangeVerdict;
}

/** What has changed by no more than this share of a limit has stayed. */
const SMALL = 0.5;
/** Coverage factor of a 95 % interval [GUM §6.3.3]. */
const COVERAGE = 2;
/** In expanded uncertainties: many findings are looked at at once, and three standard deviations are seldom chance. */
const MOVED = 1.5;

/**
 * What became of a finding between two epochs, to first order: the difference has the variance of its own gradient over
 * all variables of the fit, so that what lies in both counts for nothing [GUM §5.2.2].
 *
 * @param limit in the finding's unit; null where it has none, and then nothing is called stayed
 */
export function changeBetween(
  estimate: Estimate,
  finding: Finding,
  limit: number | null,
  firstStage: number,
  secondStage: number,
): Change {
  const gradient = new Float64Array(estimate.problem.variables.length);
  const before = addTo(gradient, finding, sceneOfEpoch(estimate, firstStage), -1);
  const after = addTo(gradient, finding, sceneOfEpoch(estimate, secondStage), 1);
  const change = after - before;
  const expandedUncertainty = COVERAGE * Math.sqrt(varianceAcrossEpochs(estimate, gradient));
  return {
    finding,
    before,
    after,
    change,
    expandedUncertainty,
    verdict: verdictOf(change, expandedUncertainty, limit),
  };
}

function verdictOf(change: number, u: number, limit: number | null): ChangeVerdict {
  if (Math.abs(change) > MOVED * u && u > 0) return "moved";
  return limit !== null && Math.abs(change) + u <= SMALL * limit ? "stayed" : "not known";
}

/** Adds the finding's gradient, times a sign, to one over all variables; gives its value. */
function addTo(total: Float64Array, finding: Finding, { scene, variables }: EpochScene, sign: 1 | -1): number {
  const { value, gradient } = valueWithGradient(finding, scene);
  for (let i = 0; i < gradient.length; i++) if (variables[i] >= 0) total[variables[i]] += sign * gradient[i];
  return value;
}

/** A sample is moved by so much to see what it does to the whole; the reductions are largest, smallest and spread. */
const NUDGE = 1e-6;

function valueWithGradient(finding: Finding, scene: Scene): { value: number; gradient: Float64Array } {
  if (finding.form === "linear") return finding.evaluate(scene);
  const samples = finding.samples(scene);
  const values = Float64Array.from(samples, ({ value }) => value);
  const value = finding.reduce(values, scene.machine);
  const gradient = new Float64Array(scene.size);
  samples.forEach((sample, s) => {
    values[s] += NUDGE;
    const slope = (finding.reduce(values, scene.machine) - value) / NUDGE;
    values[s] = sample.value;
    if (slope !== 0) for (let i = 0; i < gradient.length; i++) gradient[i] += slope * sample.gradient[i];
  });
  return { value, gradient };
}
