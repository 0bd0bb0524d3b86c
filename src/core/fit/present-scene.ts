import type { Scene } from "../machine/kinematics.ts";
import { homingYaw } from "../machine/machine.ts";
import { covarianceOf, type Estimate } from "./estimate.ts";

/** The machine as it stands now, with gradients over its parameters (and over the state in which it was skimmed). */
export function presentScene(estimate: Estimate): Scene {
  const { problem, state, values } = estimate;
  const { skim } = problem.modes[problem.modes.length - 1];
  const count = problem.machine.parameters.length;
  return {
    machine: problem.machine,
    state,
    size: skim ? 2 * count : count,
    skim: skim && { state: Float64Array.from(skim, (c) => (c < 0 ? 0 : values[c])), column: count },
  };
}

const skimmedCovariances = new WeakMap<Estimate, Float64Array>();

/** Covariance over the present scene's columns: with a skimmed bed, the parameters of that moment come along. */
export function presentCovariance(estimate: Estimate): Float64Array {
  const { problem, covariances } = estimate;
  const { skim } = problem.modes[problem.modes.length - 1];
  if (!skim) return estimate.covariance;
  const known = skimmedCovariances.get(estimate);
  if (known) return known;
  const covariance = covarianceOf(Int32Array.from([...problem.present, ...skim]), covariances[covariances.length - 1]);
  skimmedCovariances.set(estimate, covariance);
  return covariance;
}

/**
 * Variances that the machine's parameters would have without any reading: usual ones, and what a cure has left since it
 * made a mode anew. What is known of a value now, held against these, tells whether readings carry it at all.
 */
export function unreadVariances({ problem }: Estimate): Float64Array {
  const { unreadSd } = problem.modes[problem.modes.length - 1];
  const variances = unreadSd.map((sd) => sd ** 2);
  variances[problem.machine.parameterIndex.get(homingYaw) as number] = problem.homingSd ** 2;
  return variances;
}

/** Gradient over all variables of the problem, of something computed in the present scene. */
export function gradientOverVariables(estimate: Estimate, gradient: Float64Array): Float64Array {
  const { problem } = estimate;
  const { skim } = problem.modes[problem.modes.length - 1];
  const out = new Float64Array(problem.variables.length);
  const count = problem.present.length;
  for (let i = 0; i < gradient.length; i++) {
    const column = i < count ? problem.present[i] : skim ? skim[i - count] : -1;
    if (column >= 0) out[column] += gradient[i];
  }
  return out;
}
