import { dot, timesMatrix } from "../numerics/symmetric.ts";
import type { Demand } from "./demand.ts";
import type { WorkState } from "./work-state.ts";

/** A smooth function of the machine that must by itself keep the demand's limit, on both sides of nothing. */
export interface LimitedFunction {
  readonly value: number;
  readonly variance: number;
  /** Over the state's columns. */
  gradient(): Float64Array;
}

/** A demand's samples, or for a spread each sample less each other of its group; all within the limit is the demand kept. */
export function limitedFunctions(demand: Demand, { scene, covariance }: WorkState): readonly LimitedFunction[] {
  const samples = demand.samples(scene);
  const products = samples.map(({ gradient }) => timesMatrix(covariance, gradient));
  const between = (i: number, j: number) => dot(samples[i].gradient, products[j]);
  if (demand.form === "largest") {
    return samples.map(({ value, gradient }, i) => ({ value, variance: between(i, i), gradient: () => gradient }));
  }
  const groups = demand.groups ?? [[0, samples.length] as const];
  const pairs: LimitedFunction[] = [];
  for (const [from, to] of groups) {
    for (let i = from; i < to; i++) {
      for (let j = from; j < i; j++) {
        pairs.push({
          value: samples[i].value - samples[j].value,
          variance: between(i, i) + between(j, j) - 2 * between(i, j),
          gradient: () => samples[i].gradient.map((g, column) => g - samples[j].gradient[column]),
        });
      }
    }
  }
  return pairs;
}
