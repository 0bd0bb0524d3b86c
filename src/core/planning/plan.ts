import type { GeometricCheck, Setup, Station } from "../checks/check.ts";
import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import type { Demand } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import type { WorkState } from "../work/work-state.ts";

/** What is asked of the planner. */
export interface PlanQuestion {
  readonly state: WorkState;
  readonly demands: readonly Demand[];
  readonly adjusters: readonly Adjuster[];
  /** What lies at each packing place now, by adjuster, mm; nothing where it is not named. */
  readonly packingNow: ReadonlyMap<string, number>;
  /** Leaves that are at hand, each thickness as often as there are leaves of it, mm. */
  readonly stockMm: readonly number[];
  readonly locks: ReadonlySet<string>;
  /** true: the bed will be skimmed whatever the plan; null: it may be proposed; false: it must not. */
  readonly willSkim: boolean | null;
}

/** What is to be done, in the order in which it is to be done. */
export interface Plan {
  readonly answer: "leave it alone" | "move" | "measure first" | "out of reach";
  readonly moves: readonly PlannedMove[];
  /** At the joints, and for reading again what the moves disturb, each group of checks counted once. */
  readonly minutes: number;
  readonly demands: readonly PlannedDemand[];
  /** Chance that all demands are within: now, after the plan, and after it had the machine been known exactly. */
  readonly chance: { readonly now: number; readonly after: number; readonly knownExactly: number };
  /** Where the machine is expected to stand after the plan. */
  readonly after: WorkState;
  /** False when the search was stopped by its count of nodes: then the best found, and how far it may be from the best. */
  readonly proven: boolean;
  readonly gap: number;
}

export interface PlannedMove {
  readonly adjuster: Adjuster;
  /** In the adjuster's unit, from where it stands now. */
  readonly amount: number;
  /** For packing: leaves to lay and to take out, mm, thickest first; each of two places has its own. */
  readonly leaves: readonly LeafChange[];
  /** Each demand that the move changes by more than a hundredth of its limit, before and after this move in its turn. */
  readonly brings: readonly { readonly demand: Demand; readonly before: number; readonly after: number }[];
  /** Where the machine is expected to stand before and after this move. */
  readonly before: WorkState;
  readonly after: WorkState;
}

export interface LeafChange {
  readonly place: "top" | "bottom" | "only";
  readonly layMm: readonly number[];
  /** All that lies there now comes out first, mm. */
  readonly takeOutMm: number;
  /** What lies at the place afterwards, mm. */
  readonly restMm: number;
}

/** What the gauge reads at one station when the move is right. */
export interface StopAt {
  readonly check: GeometricCheck;
  readonly setup: Setup;
  /** Run whose zero, block or square the reading goes on with; null for a run to be begun. */
  readonly run: string | null;
  readonly station: Station;
  /** Station against which the reading counts, where the zero of a new run is free. */
  readonly against: Station | null;
  /** In the check's core unit; with `setUp` "before the move" what it reads more than before the joint is opened. */
  readonly reads: number;
  /** Anything in here is good enough. */
  readonly from: number;
  readonly to: number;
  /**
   * - "anew": it reads the same however often it is set up.
   * - "as it stood": it goes on with a run, and holds as long as nothing of that run's set-up has been touched.
   * - "before the move": it is set up and read before the joint is opened, and stays standing.
   */
  readonly setUp: "anew" | "as it stood" | "before the move";
  /** Nothing shows before the machine has been homed anew, and stands there by its drives: the reading comes after that. */
  readonly homesFirst: boolean;
  /** What it is expected to read before the joint is opened, and by how much the whole move changes that. */
  readonly readsBefore: number;
  readonly changesBy: number;
}

export interface PlannedDemand {
  readonly demand: Demand;
  readonly before: DemandResult;
  readonly after: DemandResult;
  /** How far over its limit it stays, as a share of the limit; 0 when it comes within with its guard. */
  readonly excess: number;
  /** What would cure it when it stays out. */
  readonly cure: DemandCure | null;
}

export type DemandCure =
  | { readonly kind: "skim" }
  | { readonly kind: "steps per mm"; readonly axis: "x" | "y" | "z" }
  | { readonly kind: "correct the program" }
  | { readonly kind: "measure better" }
  | { readonly kind: "unlock"; readonly adjuster: string }
  | { readonly kind: "relax the demand"; readonly reachable: number };
