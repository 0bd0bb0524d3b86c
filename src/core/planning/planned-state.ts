import type { Scene } from "../machine/kinematics.ts";
import { homingYaw, type Machine } from "../machine/machine.ts";
import { skimLeaves } from "../machine/skimmed-bed.ts";
import type { WorkState } from "../work/work-state.ts";
import type { Lever } from "./lever.ts";

/** One lever moved by an amount in its adjuster's unit; 1 for what is taken up anew. */
export interface Chosen {
  readonly lever: Lever;
  readonly amount: number;
}

/**
 * Where the machine is expected to stand after moves: the state shifts by change·amount, and to what was not known comes
 * what nipping up and loose joints leave to chance. What is taken up starts anew, tied to nothing.
 */
export function stateAfterMoves({ scene, covariance }: WorkState, moves: readonly Chosen[]): WorkState {
  const { size } = scene;
  const state = Float64Array.from(scene.state);
  const after = Float64Array.from(covariance);
  for (const { lever, amount } of moves) {
    const { adjuster, change, frees } = lever;
    if (adjuster.kind === "assign") {
      for (const [id, [mean, sd]] of Object.entries(adjuster.leaves ?? {})) {
        const index = scene.machine.parameterIndex.get(id);
        if (index !== undefined) startAnew(state, after, size, index, mean, sd);
      }
      continue;
    }
    for (let i = 0; i < change.length; i++) {
      state[i] += change[i] * amount;
      if (change[i] !== 0)
        for (let j = 0; j < change.length; j++) after[i * size + j] += change[i] * change[j] * adjuster.sd ** 2;
      after[i * size + i] += frees[i] ** 2;
    }
  }
  return { scene: { ...scene, state }, covariance: after };
}

function startAnew(
  state: Float64Array,
  covariance: Float64Array,
  size: number,
  index: number,
  mean: number,
  sd: number,
): void {
  state[index] = mean;
  for (let j = 0; j < size; j++) {
    covariance[index * size + j] = 0;
    covariance[j * size + index] = 0;
  }
  covariance[index * size + index] = sd ** 2;
}

/** Where the machine is expected to stand after a whole plan: the skim cuts what all moves have left. */
export function plannedState(
  state: WorkState,
  { moves, skim }: { readonly moves: readonly Chosen[]; readonly skim: boolean },
): WorkState {
  const moved = stateAfterMoves(state, moves);
  return skim ? skimmedState(moved) : moved;
}

/**
 * The same machine with its bed skimmed as it stands: the state of this moment stands twice, once as what the machine is
 * and once as what its surface was cut in; the homing in which it is skimmed is none that anything else knows of.
 */
export function skimmedState({ scene, covariance }: WorkState): WorkState {
  const { machine, size } = scene;
  const count = machine.parameters.length;
  const width = 2 * count;
  const state = Float64Array.from(scene.state);
  const after = new Float64Array(width * width);
  for (let i = 0; i < width; i++)
    for (let j = 0; j < width; j++) after[i * width + j] = covariance[(i % count) * size + (j % count)];
  const bed = bedIndices(machine);
  for (const [index, sd] of bed) startAnew(state, after, width, index, 0, sd);
  const home = machine.parameterIndex.get(homingYaw) as number;
  const cutIn = Float64Array.from(scene.state);
  startAnew(cutIn, after, width, home, 0, Math.sqrt(covariance[home * size + home]));
  for (let j = 0; j < width; j++) {
    after[(count + home) * width + j] = 0;
    after[j * width + count + home] = 0;
  }
  const skim: Scene["skim"] = { state: cutIn.slice(0, count), column: count };
  return { scene: { machine, state, size: width, skim }, covariance: after };
}

/** Parameters of the bed, with what skimming leaves of each. */
function bedIndices(machine: Machine): readonly (readonly [index: number, sd: number])[] {
  return [...skimLeaves(machine)].flatMap(([id, sd]) => {
    const index = machine.parameterIndex.get(id);
    return index === undefined ? [] : [[index, sd] as const];
  });
}
