import type { ChangeVerdict } from "../../core/findings/change.ts";
import type { DemandVerdict } from "../../core/work/demand-result.ts";
import type { Answer } from "./protocol-parts.ts";

/** Two times side by side. */
export interface ComparePage {
  readonly machine: string;
  readonly epochs: readonly ComparedEpoch[];
  /** Null where there are not two times to compare. */
  readonly comparison: ComparedPair | null;
}

export interface ComparedEpoch {
  /** Of its first reading, as it stands in an address. */
  readonly at: string;
  /** With the time of day where another is of that day. */
  readonly date: string;
  /** What came before it, in words; empty for the first. */
  readonly after: string;
}

export interface ComparedPair {
  readonly before: string;
  readonly after: string;
  readonly headline: string;
  readonly between: readonly string[];
  readonly changes: readonly {
    readonly id: string;
    readonly title: string;
    readonly unit: string;
    /** Each with its doubt, in one step with the change. */
    readonly before: string;
    readonly after: string;
    readonly change: string;
    readonly verdict: ChangeVerdict;
    /** Which side has no reading that shows it; empty where both have. */
    readonly read: string;
  }[];
  readonly chance: string;
  readonly demands: readonly {
    readonly id: string;
    readonly title: string;
    readonly unit: string;
    readonly limit: string;
    readonly before: string;
    readonly after: string;
    readonly verdictBefore: DemandVerdict;
    readonly verdict: DemandVerdict;
    readonly chance: string;
  }[];
  /** What the work came out like before and after; empty where nothing is asked. */
  readonly picture: string;
  /** The machine in plan before and after, both at one exaggeration. */
  readonly plans: readonly [before: string, after: string];
}

export interface CompareRequests {
  compare: {
    ask: {
      machine: string;
      from: string | null;
      to: string | null;
      /** Id of something that happened: before and after it. */
      around: string | null;
    };
    answer: Answer<ComparePage>;
  };
}
