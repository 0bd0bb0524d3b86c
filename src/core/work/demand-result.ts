import type { Demand } from "./demand.ts";

export type DemandVerdict = "within" | "out" | "not known yet";

/** One demand with all that is known of it, in the demand's unit, unrounded. */
export interface DemandResult {
  readonly demand: Demand;
  /** At the estimate itself. */
  readonly value: number;
  /** Equal-tailed 95 % interval and middle of the posterior's draws [JCGM 101 §7.7]. */
  readonly low: number;
  readonly median: number;
  readonly high: number;
  /** Chance of being within the limit. */
  readonly probability: number;
  /** "within" from a chance of 95 % on; "out" up to 5 % where what was read carries it [JCGM 106 §7, §8.3]. */
  readonly verdict: DemandVerdict;
}
