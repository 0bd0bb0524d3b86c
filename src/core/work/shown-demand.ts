import { formatNumber, stepForUncertainty } from "../base/number-format.ts";
import type { DemandResult } from "./demand-result.ts";

/** Where a demand's number lies: the middle of what it may be, and the ends of the interval that covers 95 cases of 100. */
export type DemandInterval = Pick<DemandResult, "low" | "median" | "high">;

/** Such numbers as they are read, all in one step, without their unit. */
export interface ShownDemand {
  /** `0.10` */
  readonly value: string;
  /** `0.00 to 0.30` */
  readonly interval: string;
  /** `0.10 (0.00 to 0.30)` */
  readonly whole: string;
  /** `0.10 (0.00…0.30)`, where there is little room. */
  readonly short: string;
}

/**
 * A demand's number no finer than it is known. The middle stands for it, not the number at the estimate:
 * a difference that comes out as nothing there is hardly ever nothing, and would lie outside its own interval.
 */
export function showDemand({ low, median, high }: DemandInterval): ShownDemand {
  const { size, decimals } = stepForUncertainty((high - low) / 2);
  const shown = (count: number) => formatNumber(count * size, decimals);
  const [least, most] = [Math.floor(low / size + SLACK), Math.ceil(high / size - SLACK)];
  const value = shown(Math.round(median / size));
  const interval = `${shown(least)} to ${shown(most)}`;
  return {
    value,
    interval,
    whole: `${value} (${interval})`,
    short: `${value} (${shown(least)}…${shown(most)})`,
  };
}

/** 0.06/0.02 is not quite 3 in a double. */
const SLACK = 1e-9;
