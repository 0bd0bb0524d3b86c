import { invariant } from "../base/invariant.ts";
import type { Scene } from "../machine/kinematics.ts";
import { normalCdf } from "../numerics/distributions.ts";
import { farAboveNothing, placeAboveNothing } from "../numerics/normal-above-nothing.ts";
import { lowerRoot } from "../uncertainty/monte-carlo.ts";
import type { WorkState } from "./work-state.ts";

/**
 * Draws of a machine's state about `scene`: normal with the covariance given, but for what cannot be negative, play and
 * runout. There each draw of the margin is replaced by that of the normal cut off at nothing which has the same share
 * below it; what hangs together stays together.
 *
 * A draw is a row of numbers: normals, each by itself, then what is added where something cannot be negative.
 */
export interface StateDraws {
  /** The estimate, with play and runout that were found below nothing put to nothing. */
  readonly scene: Scene;
  /** How many normals a draw begins with. */
  readonly normals: number;
  /** How many numbers it has. */
  readonly width: number;
  /** What a function of the scene with this gradient gains by each number of a draw. */
  over(gradient: Float64Array): Float64Array;
  /** Completes a draw whose normals stand there. */
  complete(draw: Float64Array): void;
}

export function drawsOfState({ scene, covariance }: WorkState): StateDraws {
  const n = scene.size;
  invariant(covariance.length === n * n, "a covariance is over the columns of its scene");
  const sds = Float64Array.from({ length: n }, (_, i) => Math.sqrt(Math.max(0, covariance[i * n + i])));
  const columns = Array.from(sds, (_, i) => i).filter((i) => sds[i] > 0);
  const { factors, from, rank } = rowsOfRoot(covariance, n, columns);
  const never = neverNegativeColumns(scene);
  const cutOff = columns
    .map((column, row) => ({ column, row, mean: stateAt(scene, column), sd: sds[column] }))
    .filter(({ column, mean, sd }) => never.has(column) && mean < farAboveNothing * sd);
  return {
    scene: withoutNegatives(scene),
    normals: rank,
    width: rank + cutOff.length,
    over: (gradient) => {
      const gains = new Float64Array(rank + cutOff.length);
      columns.forEach((column, row) => {
        const slope = gradient[column];
        if (slope !== 0) for (let at = from[row], j = 0; at < from[row + 1]; at++, j++) gains[j] += slope * factors[at];
      });
      cutOff.forEach(({ column }, c) => {
        gains[rank + c] = gradient[column];
      });
      return gains;
    },
    complete: (draw) => {
      cutOff.forEach(({ row, mean, sd }, c) => {
        let offset = 0;
        for (let at = from[row], j = 0; at < from[row + 1]; at++, j++) offset += factors[at] * draw[j];
        draw[rank + c] = placeAboveNothing(mean, sd, normalCdf(-offset / sd)) - Math.max(0, mean) - offset;
      });
    },
  };
}

/** L of LLᵀ = the covariance of the columns, row by row up to its last factor; normals that move nothing are left out. */
function rowsOfRoot(covariance: Float64Array, n: number, columns: readonly number[]) {
  const m = columns.length;
  const own = new Float64Array(m * m);
  columns.forEach((i, row) => {
    columns.forEach((j, column) => {
      own[row * m + column] = covariance[i * n + j];
    });
  });
  const root = lowerRoot(own, m);
  const live = columns.flatMap((_, j) => (root[j * m + j] > 0 ? [j] : []));
  const rows = columns.map((_, i) => live.filter((j) => j <= i).map((j) => root[i * m + j]));
  const from = new Int32Array(m + 1);
  rows.forEach((row, i) => {
    from[i + 1] = from[i] + row.length;
  });
  return { factors: Float64Array.from(rows.flat()), from, rank: live.length };
}

/** Columns of play and runout, of now and of the moment in which the bed was skimmed. */
function neverNegativeColumns({ machine, skim }: Scene): ReadonlySet<number> {
  const own = machine.modes.flatMap(({ neverNegative }, i) => (neverNegative ? [i] : []));
  return new Set(skim ? [...own, ...own.map((i) => skim.column + i)] : own);
}

function stateAt({ machine, state, skim }: Scene, column: number): number {
  return column < machine.parameters.length || !skim ? state[column] : skim.state[column - skim.column];
}

function withoutNegatives(scene: Scene): Scene {
  const { machine, skim } = scene;
  const raised = (state: Float64Array) =>
    Float64Array.from(state, (value, i) => (machine.modes[i]?.neverNegative ? Math.max(0, value) : value));
  return { ...scene, state: raised(scene.state), skim: skim && { ...skim, state: raised(skim.state) } };
}
