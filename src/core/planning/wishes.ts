import type { Timeline } from "../fit/timeline.ts";
import type { DemandWish } from "../work/demand.ts";

/** What the user wants of the machine and can lay hands on, as the logbook holds it. */
export interface Wishes {
  /** Kind of work from the catalogue; null for the usual first one. */
  readonly kindOfWork: string | null;
  /** The user's own demands by a name of their own; they stand beside those of the kind of work. */
  readonly demands: ReadonlyMap<string, DemandWish>;
  /** Own limits for demands of the kind of work, by demand id, in the demand's unit; null drops the demand. */
  readonly demandLimits: ReadonlyMap<string, number | null>;
  /** Whether the bed will be skimmed in this round; null until it has been asked: the plan may then propose it. */
  readonly willSkim: boolean | null;
  /** Leaves to pack with, each thickness as often as there are leaves of it, mm; null for the usual stock. */
  readonly stockMm: readonly number[] | null;
  /** Adjusters that must stay as they are, with the reason. */
  readonly locks: ReadonlyMap<string, string>;
}

/** All that a logbook comes to: the ground of the estimate, and what is wished for. */
export interface Chronicle extends Timeline {
  readonly wishes: Wishes;
}

export const noWishes: Wishes = {
  kindOfWork: null,
  demands: new Map(),
  demandLimits: new Map(),
  willSkim: null,
  stockMm: null,
  locks: new Map(),
};
