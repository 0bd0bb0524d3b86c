import { covarianceTimes } from "../estimation/elimination.ts";
import type { Scene } from "../machine/kinematics.ts";
import { dot } from "../numerics/symmetric.ts";
import { covarianceOf, type Estimate, stateFrom } from "./estimate.ts";

/** The machine as it stood in one epoch, with all that is known today: what was read later counts as well. */
export interface EpochScene {
  readonly scene: Scene;
  /** Covariance over the scene's columns, row-major. */
  readonly covariance: Float64Array;
  /** Variable of the problem behind each of the scene's columns; negative where there is none. */
  readonly variables: Int32Array;
}

/** @param stage number of the epoch, as in `estimate.problem.epochs` */
export function sceneOfEpoch({ problem, values, covariances }: Estimate, stage: number): EpochScene {
  const { columns, skim } = problem.modes[stage];
  const variables = skim ? Int32Array.from([...columns, ...skim]) : columns;
  return {
    scene: {
      machine: problem.machine,
      state: stateFrom(columns, values),
      size: variables.length,
      skim: skim && { state: stateFrom(skim, values), column: columns.length },
    },
    covariance: covarianceOf(variables, covariances[stage]),
    variables,
  };
}

/** Variance of something with this gradient over all variables of the problem, whichever epochs they belong to. */
export function varianceAcrossEpochs({ factor }: Estimate, gradient: Float64Array): number {
  return Math.max(0, dot(gradient, covarianceTimes(factor, gradient)));
}
