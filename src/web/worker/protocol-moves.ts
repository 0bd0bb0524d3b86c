import type { planAsJson } from "../../app/plan-json.ts";
import type { Verdict } from "../../core/findings/evaluate.ts";
import type { LogEvent } from "../../logbook/events.ts";
import type { Answer, EntryForm, NextThing, SetupChoice } from "./protocol-parts.ts";

/** What is tried once, without being written into the logbook; all of it as it stands where nothing is said. */
export interface WhatIf {
  readonly locks?: readonly string[];
  readonly only?: readonly string[];
  readonly stockMm?: readonly number[];
  readonly willSkim?: boolean | null;
  readonly kindOfWork?: string | null;
}

/** A plan as the page shows it. */
export interface PlanPage {
  /** Of how many events it was worked out. */
  readonly version: number;
  readonly answer: "leave it alone" | "move" | "measure first" | "out of reach";
  readonly headline: string;
  readonly chance: string;
  /** How far it may be from the best there is; empty where none is better. */
  readonly proof: string;
  readonly gatePassed: boolean;
  readonly minutes: string;
  /** What holds for moves that are several; empty for one. */
  readonly inOrder: string;
  readonly moves: readonly PlannedMovePage[];
  readonly demands: readonly DemandRow[];
  readonly picture: string;
  readonly holdOuts: readonly HoldOut[];
  /** What is to be measured first, or next; null where nothing is open. */
  readonly measure: MeasureNext | null;
  readonly things: PlannedThings;
  /** The same as the command line gives to machines, unrounded. */
  readonly numbers: ReturnType<typeof planAsJson>;
}

export interface PlannedMovePage {
  readonly adjuster: string;
  readonly letter: string;
  readonly kind: "add" | "assign" | "skim";
  readonly words: string;
  readonly sentence: string;
  readonly minutes: string;
  /** In the adjuster's unit. */
  readonly amount: number;
  /** "0.29 up", "0.23 to the left", "+0.4 mm", to be read after "as planned:"; empty where nothing goes by an amount. */
  readonly amountWords: string;
  /** In turns of a screw, teeth of a belt or steps of a motor; empty where nobody knows of them. */
  readonly turned: string;
  readonly fastening: readonly string[];
  readonly alsoLoose: string;
  readonly cautions: readonly string[];
  readonly readAgain: readonly ReadAgainEntry[];
  readonly brings: readonly BroughtRow[];
  readonly drawing: string;
  /** Before and after, as a picture; empty where it brings nothing to speak of. */
  readonly picture: string;
  readonly leaves: { readonly laidMm: readonly number[]; readonly takenOutMm: readonly number[] } | null;
  readonly stop: StopPage | null;
}

export interface ReadAgainEntry {
  readonly check: string;
  readonly title: string;
  readonly minutes: number;
}

export interface BroughtRow {
  readonly title: string;
  readonly unit: string;
  readonly limit: string;
  readonly before: string;
  readonly after: string;
  /** To be expected when the whole plan has been carried out. */
  readonly verdict: Verdict;
}

/** Where the hand stops, and how what the gauge reads there is noted. */
export interface StopPage {
  readonly title: string;
  readonly check: string;
  readonly goesOn: string;
  readonly into: string | SetupChoice;
  readonly station: string;
  readonly lead: string;
  readonly clause: string;
  readonly band: string;
  /** What stands before the joint is opened: said before the reading, or after it where it may stand already. */
  readonly setUpFirst: string;
  readonly setUpElse: string;
  /** What it reads before the move, in words; empty where that is no single number. */
  readonly now: string;
  readonly instrument: { readonly id: string; readonly name: string };
  readonly plan: string;
  readonly entry: EntryForm;
  /** In a run begun anew, what the reading is held against, since one alone says nothing; null where one does. */
  readonly other: { readonly station: string; readonly name: string; readonly isBefore: boolean } | null;
  /** It is read after the machine has been homed anew. */
  readonly homesFirst: boolean;
  readonly stationName: string;
}

export interface DemandRow {
  readonly id: string;
  readonly title: string;
  readonly limit: string;
  readonly before: string;
  readonly after: string;
  readonly chance: string;
  readonly verdictNow: Verdict;
  readonly verdict: Verdict;
}

export interface HoldOut {
  readonly title: string;
  readonly words: string;
  /** The adjuster that would have to be freed. */
  readonly unlock: string | null;
}

export interface MeasureNext {
  readonly first: boolean;
  readonly words: readonly string[];
  readonly checks: readonly NextThing[];
}

/** What a plan gives to do, for whoever asks what comes next. */
export interface PlannedThings {
  readonly answer: PlanPage["answer"];
  readonly moves: readonly NextThing[];
  readonly checks: readonly NextThing[];
  /** Whether the checks come before the moves: something is known too poorly to be moved for. */
  readonly measureFirst: boolean;
  /** One sentence for the list of stages. */
  readonly stage: string;
  /** Why there is nothing to do, where there is nothing. */
  readonly enough: string;
}

/** What to do now, and what then. */
export interface NextPage {
  readonly machine: string;
  /** Of how many events it was said. */
  readonly version: number;
  readonly now: NextThing | null;
  readonly afterwards: readonly NextThing[];
  /** Said in the place of the card where there is nothing to do. */
  readonly nothing: string;
  /** Whether a plan has been worked out for it; until then what a plan would say is left open. */
  readonly planned: boolean;
  /** Whether what is said first waits for a plan. */
  readonly asksPlan: boolean;
  /** Whether a plan would have something to say at all. */
  readonly wouldPlan: boolean;
}

/** All that is asked and at hand, beside the plan itself: quick to have. */
export interface MovesBoard {
  readonly machine: string;
  readonly version: number;
  readonly work: {
    readonly isAsked: boolean;
    readonly chosen: string;
    readonly kinds: readonly { readonly id: string; readonly name: string }[];
  };
  readonly skim: { readonly isAsked: boolean; readonly will: boolean | null };
  readonly stock: { readonly isUsual: boolean; readonly words: string; readonly leaves: readonly LeafCount[] };
  readonly places: readonly AdjusterPlace[];
  readonly placesPicture: string;
  readonly done: readonly DoneMove[];
  readonly readAgain: readonly NextThing[];
  /** What is read again, or put right, before anything is moved for it. */
  readonly disputed: readonly NextThing[];
}

export interface LeafCount {
  readonly mm: number;
  readonly count: number;
}

/** A place at which the machine can be changed. */
export interface AdjusterPlace {
  readonly id: string;
  readonly letter: string;
  readonly words: string;
  readonly reach: string;
  readonly lies: string;
  readonly minutes: string;
  readonly available: boolean;
  readonly locked: string | null;
}

export interface DoneMove {
  readonly id: string;
  readonly adjuster: string;
  readonly when: string;
  readonly words: string;
}

/** One place, whether or not the plan moves it. */
export interface AdjusterPage {
  readonly place: AdjusterPlace;
  readonly kind: "add" | "assign" | "skim";
  readonly drawing: string;
  readonly does: string;
  readonly fastening: readonly string[];
  readonly alsoLoose: string;
  /** What is minded before anything else, the plug and the cutter first. */
  readonly cautions: readonly string[];
  /** And what is minded meanwhile, as at other joints. */
  readonly meanwhile: readonly string[];
  readonly readAgain: readonly ReadAgainEntry[];
  readonly asks: AmountAsked;
}

/** How the amount of a move is asked for: never as a bare plus or minus. */
export type AmountAsked =
  | { readonly kind: "none" }
  /** A way of the hand, and in which of two directions. */
  | { readonly kind: "way"; readonly of: string; readonly plus: string; readonly minus: string; readonly over: string }
  /** Leaves that were laid and taken out, at one place or at one of two. */
  | { readonly kind: "leaves"; readonly places: readonly { readonly sign: 1 | -1; readonly words: string }[] }
  /** A number in the controller; without the old one, what it was multiplied by. */
  | { readonly kind: "steps"; readonly now: string };

/** An amount as it was made: what was planned, or what was typed otherwise. */
export type AmountMade =
  | { readonly kind: "planned"; readonly amount: number }
  | { readonly kind: "none" }
  | { readonly kind: "way"; readonly text: string; readonly sign: 1 | -1 }
  | { readonly kind: "leaves"; readonly laid: string; readonly takenOut: string; readonly sign: 1 | -1 }
  | { readonly kind: "steps"; readonly text: string };

export interface GaugeRead {
  readonly into: string | SetupChoice;
  readonly station: string;
  readonly unit: string;
  readonly loose: string;
  readonly nipped: string;
  readonly final: string;
  readonly other: { readonly station: string; readonly text: string; readonly isBefore: boolean } | null;
}

/** A move that the logbook would take, and what is said of it. */
export interface MoveNoted {
  /** How many events there are with it. */
  readonly version: number;
  readonly events: readonly LogEvent[];
  /** Id of the move, by which it is taken back. */
  readonly move: string;
  readonly adjuster: string;
  readonly sentences: readonly string[];
  readonly reading: { readonly fits: "fits" | "far" | "new"; readonly words: string } | null;
}

export interface MovesRequests {
  next: { ask: { machine: string; wait: boolean }; answer: Answer<NextPage> };
  plan: { ask: { machine: string; what: WhatIf }; answer: Answer<PlanPage> };
  /** What to measure for the work on the machine as it stands, the most gained for its minutes first. */
  bestChecks: { ask: { machine: string }; answer: Answer<MeasureNext> };
  movesBoard: { ask: { machine: string }; answer: Answer<MovesBoard> };
  adjuster: { ask: { machine: string; adjuster: string }; answer: Answer<AdjusterPage> };
  noteMove: {
    ask: {
      machine: string;
      adjuster: string;
      made: AmountMade;
      planned: number | null;
      leaves: PlannedMovePage["leaves"];
      gauge: GaugeRead | null;
      by: string;
    };
    answer: Answer<MoveNoted>;
  };
  takeMoveBack: { ask: { machine: string; move: string; by: string }; answer: Answer<readonly LogEvent[]> };
  changeAdjuster: {
    ask: {
      machine: string;
      adjuster: string;
      /** How far it goes in each direction from where it stands, as typed; or whether there is such a place. */
      figures: { readonly plus: string; readonly minus: string } | { readonly available: boolean };
      by: string;
    };
    answer: Answer<readonly LogEvent[]>;
  };
}
