import { covarianceTimes, eliminate, stageCovariances } from "../estimation/elimination.ts";
import type { Scene } from "../machine/kinematics.ts";
import { homingYaw } from "../machine/machine.ts";
import { dot } from "../numerics/symmetric.ts";
import { covarianceOf, type Estimate, stateFrom } from "./estimate.ts";
import { presentCovariance, presentScene } from "./present-scene.ts";

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

/**
 * The same with the yaw of the homing in force at the epoch's end, as the findings of today have that of the last one.
 * Where no reading was taken in that homing, nothing is known of its yaw but how much homings scatter.
 */
export function sceneAsHomedIn(estimate: Estimate, stage: number): Pick<EpochScene, "scene" | "covariance"> {
  const { problem, values, covariances } = estimate;
  if (stage === problem.epochs.length - 1)
    return { scene: presentScene(estimate), covariance: presentCovariance(estimate) };
  const { scene, covariance, variables: without } = sceneOfEpoch(estimate, stage);
  const yaw = problem.machine.parameterIndex.get(homingYaw) as number;
  const id = `${homingYaw} ${problem.epochs[stage].homing}`;
  const variable = problem.variables.findIndex((candidate) => candidate.id === id);
  if (variable < 0) {
    const scattered = Float64Array.from(covariance);
    scattered[yaw * scene.size + yaw] = problem.homingSd ** 2;
    return { scene, covariance: scattered };
  }
  const variables = Int32Array.from(without);
  variables[yaw] = variable;
  const state = Float64Array.from(scene.state);
  state[yaw] = values[variable];
  // The stage knows a homing's yaw only where one of its readings depends on it.
  const known = covariances[stage].variables.includes(variable)
    ? covarianceOf(variables, covariances[stage])
    : covarianceOfVariables(estimate, variables, () => true);
  return { scene: { ...scene, state }, covariance: known };
}

/**
 * Joint covariance of variables from whichever epochs, if nothing had been read but in the epochs that count. What is
 * usual, drift, and what moves leave to chance stay as they are.
 *
 * @param variables negative where there is none: rows and columns of 0
 * @param counts whether the readings of the epoch with this number count
 */
export function covarianceOfVariables(
  estimate: Estimate,
  variables: Int32Array,
  counts: (epoch: number) => boolean,
): Float64Array {
  const stages = estimate.rows.map((rows, epoch) =>
    counts(epoch) ? rows : rows.filter(({ observation }) => observation < 0),
  );
  const keepToEnd = [...new Set(variables)].filter((variable) => variable >= 0);
  const factor = eliminate({ variables: estimate.problem.variables.length, stages, keepToEnd });
  const last = stages.length - 1;
  return covarianceOf(variables, stageCovariances(factor, last)[last]);
}

/** Variance of something with this gradient over all variables of the problem, whichever epochs they belong to. */
export function varianceAcrossEpochs({ factor }: Estimate, gradient: Float64Array): number {
  return Math.max(0, dot(gradient, covarianceTimes(factor, gradient)));
}
