import { covarianceOfVariables, type EpochScene, sceneOfEpoch, varianceAcrossEpochs } from "../fit/epoch-scene.ts";
import type { Estimate } from "../fit/estimate.ts";
import type { Scene } from "../machine/kinematics.ts";
import { quadraticForm } from "../numerics/symmetric.ts";
import { type FindingNumbers, findingNumbers } from "./evaluate.ts";
import type { Finding } from "./finding.ts";

/**
 * "moved": by clearly more than is not known of it. "stayed": whatever it did is small beside its limit. Neither is said
 * of what was not read on both sides: there only what is usual of machines in general would say so.
 */
export type ChangeVerdict = "moved" | "stayed" | "not known" | "not read on both sides";

/** A finding in two epochs, in its own unit. */
export interface Change {
  readonly finding: Finding;
  readonly before: FindingNumbers;
  readonly after: FindingNumbers;
  /** After less before. */
  readonly change: number;
  /** Of the change: what both values share, as a square's own error, is no part of it. */
  readonly expandedUncertainty: number;
  /** Whether readings of this side alone say something of it: of the first epoch or before, of the second or after. */
  readonly read: { readonly before: boolean; readonly after: boolean };
  readonly verdict: ChangeVerdict;
}

/** What has changed by no more than this share of a limit has stayed. */
const SMALL = 0.5;
/** Coverage factor of a 95 % interval [GUM §6.3.3]. */
const COVERAGE = 2;
/** In expanded uncertainties: many findings are looked at at once, and three standard deviations are seldom chance. */
const MOVED = 1.5;
/**
 * A side has read what its readings leave no more than this share of. A finding of several parts, as a cutter against the
 * bed of which only the bed was read, keeps most of its doubt, and has not been read.
 */
const READ = 0.5;

/**
 * What became of findings between two epochs, to first order: the difference has the variance of its own gradient over
 * all variables of the fit, so that what lies in both counts for nothing [GUM §5.2.2]. What homings left is no part of
 * it: the next homing would be another.
 *
 * @param asked limits in the findings' units; null where there is none, and then nothing is called stayed
 */
export function changesBetween(
  estimate: Estimate,
  asked: readonly { readonly finding: Finding; readonly limit: number | null }[],
  firstStage: number,
  secondStage: number,
): readonly Change[] {
  const first = sideOf(estimate, firstStage, (epoch) => epoch <= firstStage);
  const second = sideOf(estimate, secondStage, (epoch) => epoch >= secondStage);
  return asked.map(({ finding, limit }) => {
    const gradient = new Float64Array(estimate.problem.variables.length);
    addTo(gradient, finding, first.epoch, -1);
    addTo(gradient, finding, second.epoch, 1);
    const before = findingNumbers(finding, first.epoch.scene, first.epoch.covariance);
    const after = findingNumbers(finding, second.epoch.scene, second.epoch.covariance);
    const change = after.value - before.value;
    const firstOrder = COVERAGE * Math.sqrt(varianceAcrossEpochs(estimate, gradient));
    const expandedUncertainty = firstOrder + bentBy(finding, change, first.epoch.scene, second.epoch.scene);
    const read = { before: isRead(finding, first), after: isRead(finding, second) };
    const verdict =
      read.before && read.after ? verdictOf(change, expandedUncertainty, limit) : "not read on both sides";
    return { finding, before, after, change, expandedUncertainty, read, verdict };
  });
}

function verdictOf(change: number, u: number, limit: number | null): ChangeVerdict {
  if (Math.abs(change) > MOVED * u && u > 0) return "moved";
  return limit !== null && Math.abs(change) + u <= SMALL * limit ? "stayed" : "not known";
}

/**
 * The middle of a spread or a largest lies the farther from that of the most likely state the less was read: by how much
 * that alone changes it, it is in doubt.
 */
function bentBy(finding: Finding, change: number, before: Scene, after: Scene): number {
  if (finding.form === "linear") return 0;
  const likely = (scene: Scene) =>
    finding.reduce(
      finding.samples(scene).map(({ value }) => value),
      scene.machine,
    );
  return Math.abs(change - (likely(after) - likely(before)));
}

/** One of the two epochs, with what its own side's readings would say of it, and what would be known without any. */
interface Side {
  readonly epoch: EpochScene;
  readonly ownReadings: Float64Array;
  readonly noReading: Float64Array;
}

function sideOf(estimate: Estimate, stage: number, counts: (epoch: number) => boolean): Side {
  const epoch = sceneOfEpoch(estimate, stage);
  return {
    epoch,
    ownReadings: covarianceOfVariables(estimate, epoch.variables, counts),
    noReading: covarianceOfVariables(estimate, epoch.variables, () => false),
  };
}

/** Of a spread or a largest the samples decide that make it what it is. */
function isRead(finding: Finding, { epoch: { scene }, ownReadings, noReading }: Side): boolean {
  const gradient = gradientOf(finding, scene);
  const unread = quadraticForm(noReading, gradient);
  return unread > 0 && quadraticForm(ownReadings, gradient) <= READ ** 2 * unread;
}

/** Adds the finding's gradient, times a sign, to one over all variables. */
function addTo(total: Float64Array, finding: Finding, { scene, variables }: EpochScene, sign: 1 | -1): void {
  const gradient = gradientOf(finding, scene);
  for (let i = 0; i < gradient.length; i++) if (variables[i] >= 0) total[variables[i]] += sign * gradient[i];
}

/** A sample is moved by so much to see what it does to the whole; the reductions are largest, smallest and spread. */
const NUDGE = 1e-6;

function gradientOf(finding: Finding, scene: Scene): Float64Array {
  if (finding.form === "linear") return finding.evaluate(scene).gradient;
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
  return gradient;
}
