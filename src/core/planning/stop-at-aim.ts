import type { Estimate } from "../fit/estimate.ts";
import { presentCovariance, presentScene } from "../fit/present-scene.ts";
import { homingYaw } from "../machine/machine.ts";
import { dot, timesMatrix } from "../numerics/symmetric.ts";
import type { Demand } from "../work/demand.ts";
import type { GaugeStation } from "./stop-at-reading.ts";

/**
 * How far a reading may mislead though it is read without fault. The move is made for some function f of the machine; who
 * stops where a station h reads as predicted has set h right and not f. In the reading's unit what is not known of the
 * machine leaves the variance of
 *
 *   h − κ·f,  κ = (h·c)/(f·c)
 *
 * c what the move changes in the machine. A station that reads the very thing the move is for leaves nothing; one that
 * hangs on something else that nobody has read leaves all of that.
 */
export interface Aim {
  /** For one station, or for one less another (by number): what is left when it reads as predicted. */
  leftIn(stations: readonly GaugeStation[]): (main: number, against: number | null) => number;
  /** What is left when a reading has changed as predicted since before the move: what is not known of f itself. */
  itself(change: number): number;
}

const nothingAsked: Aim = { leftIn: () => () => 0, itself: () => 0 };

interface MoveStates {
  readonly amount: number;
  readonly before: Float64Array;
  readonly after: Float64Array;
}

/** What the move is for: of all samples of the demands the one that it changes most for its limit; of a spread from the mean. */
export function aimOf(estimate: Estimate, move: MoveStates, demands: readonly Demand[]): Aim {
  const scene = { ...presentScene(estimate), state: move.after };
  const change = new Float64Array(scene.size);
  for (let i = 0; i < move.after.length; i++) change[i] = move.after[i] - move.before[i];
  let f: Float64Array | null = null;
  let most = LEAST_SHARE;
  for (const demand of demands) {
    for (const gradient of functionsOf(
      demand,
      demand.samples(scene).map((sample) => sample.gradient),
    )) {
      const share = Math.abs(dot(gradient, change)) / demand.limit;
      if (share > most) [f, most] = [gradient, share];
    }
  }
  if (f === null) return nothingAsked;
  const covariance = presentCovariance(estimate);
  // Work is cut after another homing: what the present one is out is no part of it.
  f = Float64Array.from(f);
  f[scene.machine.parameterIndex.get(homingYaw) as number] = 0;
  const along = dot(f, change);
  const products = timesMatrix(covariance, f);
  const variance = dot(f, products);
  return {
    leftIn: (stations) => {
      const told = stations.map(({ gradient }) => timesMatrix(covariance, gradient));
      const between = (i: number, j: number) => dot(stations[i].gradient, told[j]);
      return (i, j) => {
        const slope = (g: Float64Array) =>
          dot(stations[i].gradient, g) - (j === null ? 0 : dot(stations[j].gradient, g));
        const own = between(i, i) + (j === null ? 0 : between(j, j) - 2 * between(i, j));
        const kappa = slope(change) / along;
        return Math.max(0, own - 2 * kappa * slope(products) + kappa ** 2 * variance);
      };
    },
    itself: (changeOfReading) => (changeOfReading / along) ** 2 * variance,
  };
}

/** A move that changes no demand by a hundredth of its limit is for something else. */
const LEAST_SHARE = 0.01;

function functionsOf({ form, groups }: Demand, gradients: readonly Float64Array[]): readonly Float64Array[] {
  if (form !== "spread") return gradients;
  return (groups ?? [[0, gradients.length] as const]).flatMap(([from, to]) => {
    const own = gradients.slice(from, to);
    const mean = new Float64Array(own[0]?.length ?? 0);
    for (const gradient of own) for (let i = 0; i < mean.length; i++) mean[i] += gradient[i] / own.length;
    return own.map((gradient) => gradient.map((slope, i) => slope - mean[i]));
  });
}
