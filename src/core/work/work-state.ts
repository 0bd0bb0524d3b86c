import { sceneOfEpoch } from "../fit/epoch-scene.ts";
import type { Estimate } from "../fit/estimate.ts";
import { presentCovariance, presentScene } from "../fit/present-scene.ts";
import type { Scene } from "../machine/kinematics.ts";
import { homingYaw } from "../machine/machine.ts";

/**
 * What is known of the machine when it cuts: work is cut after another homing than the readings were taken in.
 * `covariance` is over the scene's columns, row-major, size × size, in the modes' units.
 */
export interface WorkState {
  readonly scene: Scene;
  readonly covariance: Float64Array;
}

/** The present state with the yaw of a homing that is still to come: nothing on average, drawn anew. */
export function workState(estimate: Estimate): WorkState {
  return inAnotherHoming(estimate, presentScene(estimate), presentCovariance(estimate));
}

/** The same of an earlier epoch: what work would have come out like then, by all that is known today. */
export function workStateOfEpoch(estimate: Estimate, stage: number): WorkState {
  const { scene, covariance } = sceneOfEpoch(estimate, stage);
  return inAnotherHoming(estimate, scene, covariance);
}

function inAnotherHoming({ problem }: Estimate, scene: Scene, known: Float64Array): WorkState {
  const { size } = scene;
  const home = scene.machine.parameterIndex.get(homingYaw) as number;
  const state = Float64Array.from(scene.state);
  state[home] = 0;
  const covariance = Float64Array.from(known);
  for (let i = 0; i < size; i++) {
    covariance[home * size + i] = 0;
    covariance[i * size + home] = 0;
  }
  covariance[home * size + home] = problem.homingSd ** 2;
  return { scene: { ...scene, state }, covariance };
}
