import type { Check, ConditionCheck } from "../checks/check.ts";
import type { Stage } from "../checks/check-words.ts";
import type { Gate } from "../findings/gate.ts";
import type { Estimate } from "../fit/estimate.ts";
import type { InstrumentKind } from "../instruments/instrument.ts";
import type { Demand } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import type { WorkState } from "../work/work-state.ts";
import type { RunInReach } from "./possible-runs.ts";

export interface NextQuestion {
  readonly estimate: Estimate;
  readonly gate: Gate;
  /** Judged in the state in which the work will be cut. */
  readonly demands: readonly DemandResult[];
  /** That state, where moves come first: what is measured now then bears on what they will leave undecided. */
  readonly planned?: WorkState;
  /** True when the bed will be skimmed before: what it is now then plays no part. */
  readonly willSkim?: boolean;
  /** How far the machine has been built; finished when left out. */
  readonly stage?: Stage;
  /** Kinds of instrument that could be got. */
  readonly kinds?: readonly InstrumentKind[];
}

export type NextAnswer =
  /** Nothing has been read yet: an hour that shows most of what matters, as far as the user's instruments go. */
  | {
      readonly kind: "short round";
      readonly conditions: readonly ConditionCheck[];
      readonly runs: readonly RunInReach[];
      /** Checks of the round that the user has no instrument for. */
      readonly without: readonly Check[];
      readonly reason: string;
    }
  /** What of the fit-to-measure round has not been passed: until then no reading of the geometry is believed. */
  | { readonly kind: "fit to measure"; readonly open: Gate["checks"]; readonly reason: string }
  /** The first three, best first. */
  | { readonly kind: "check"; readonly next: readonly NextCheck[] }
  /** Nothing that the user has brings the demands nearer to a decision, and some are not known well enough for one. */
  | { readonly kind: "no instrument"; readonly verdicts: readonly InstrumentVerdict[]; readonly reason: string }
  | {
      readonly kind: "you know enough";
      /** Demands that lie so close to their limits that they are neither surely in nor surely out all the same. */
      readonly undecided: readonly Demand[];
      readonly reason: string;
    };

export interface NextCheck {
  readonly run: RunInReach;
  readonly minutes: number;
  /** Σ over demands of how undecided each is, times by how much its doubt is expected to fall. */
  readonly gain: number;
  readonly gainPerMinute: number;
  /** Demands that it brings nearer to a decision, the one that gains most first. */
  readonly serves: readonly ServedDemand[];
  readonly reason: string;
}

/** Standard uncertainties of what decides a demand, all that may decide it taken together; in the demand's unit. */
export interface ServedDemand {
  readonly demand: Demand;
  readonly gain: number;
  /** Whether all of it is then known to a third of the limit. */
  readonly settles: boolean;
  readonly standardUncertaintyNow: number;
  readonly standardUncertaintyAfter: number;
}

/**
 * Whether what somebody owns can decide a demand at all, and by which runs. Uncertainties are standard ones, in the
 * demand's unit, of the least known of all that may decide it.
 */
export interface InstrumentVerdict {
  readonly demand: Demand;
  readonly open: OpenBecause;
  readonly decides: boolean;
  /** The user's own runs that decide it in the fewest minutes; if none do, those that come nearest. */
  readonly by: readonly RunInReach[];
  readonly standardUncertaintyNow: number;
  /** After `by`. */
  readonly standardUncertaintyAfter: number;
  /** What no reading taken now takes away: the next homing, and what a skim leaves to chance. */
  readonly beyondReading: number;
  /** What moves that come first leave to chance. */
  readonly leftByMoves: number;
  /** Where the user's own cannot: what of the catalogue could, and the runs that would be taken with it. */
  readonly would: DecidingRuns | null;
  readonly sentence: string;
}

/**
 * What keeps a demand open.
 *
 * - "nothing": it is known well enough.
 * - "unread": no reading bears on all of it, so that what is known is what is usual.
 * - "doubt": more than a third of the limit is not known.
 * - "close": little is not known, and it lies nearer to its limit than that.
 * - "moves": little is not known now, and moves that come first leave more to chance.
 */
export type OpenBecause = "nothing" | "unread" | "doubt" | "close" | "moves";

export interface DecidingRuns {
  /** What the user would have to get. */
  readonly lacks: readonly string[];
  readonly runs: readonly RunInReach[];
  readonly standardUncertaintyAfter: number;
}
