import type { Member } from "../modes.ts";
import type { Place } from "./place.ts";

/** Something by which a hand, or the controller, makes a way: a screw, a toothed belt, a motor. */
export interface Turned {
  readonly by: "turn" | "tooth" | "step";
  /** "the screw that sets it", "the right belt". */
  readonly words: string;
  /** The way of one turn, tooth or step, mm. */
  readonly wayMm: number;
}

/**
 * A place at which somebody can shift, pack or turn something. All figures: common practice, no source.
 *
 * - "add": the modes change by `effect` per unit of the amount, with `sd` of the amount left to chance.
 * - "assign": the mode becomes what the cure leaves, whatever it was.
 * - "skim": what the cutter leaves is the new surface of the bed.
 */
export interface Adjuster {
  readonly id: string;
  readonly words: string;
  readonly kind: "add" | "assign" | "skim";
  readonly unit: "mm" | "mm/m" | "";
  /** What one unit of the amount does to the modes, in their units. */
  readonly effect: Readonly<Record<string, number>>;
  /** Amounts a person can reach: for packing what may lie there in all, for the rest from where it stands now. */
  readonly range: readonly [from: number, to: number];
  /** Standard deviation of where nipping up the screws leaves it, in the amount's unit. */
  readonly sd: number;
  /** What else the joint lets go: standard deviation added to each mode, in the mode's unit. */
  readonly frees: Readonly<Record<string, number>>;
  /** For "assign": mean and standard deviation of what is left, in the mode's unit. */
  readonly leaves?: Readonly<Record<string, readonly [mean: number, sd: number]>>;
  /** Work at the joint itself. */
  readonly minutes: number;
  /** What has to be read again after it; adjusters of one group share it, so that a plan counts it once. */
  readonly readAgain: ReadAgain | null;
  /** "soft" can be taken back by a number, a leaf or another cut; "structural" opens a joint that carries the machine. */
  readonly cure: "soft" | "structural";
  /**
   * Where leaves lie. "one place": the amount is what lies there, never less than nothing. "top or bottom": two places
   * that work against each other; the amount is what lies behind the top less what lies behind the bottom.
   */
  readonly packing: "none" | "one place" | "top or bottom";
  /** Place in the chain: upstream is moved first. */
  readonly level: number;
  /** On drawings and in lists: A, B, C … in the order of the layout's list. */
  readonly letter: string;
  /** False where this machine has no such place, or nobody gets at it: moves that were made there keep their meaning. */
  readonly available: boolean;
  /** What is loosened. */
  readonly fasteners: Fasteners;
  /** Where the machine stands meanwhile: x, y, z of the tool, mm. All places of the adjuster are those at this pose. */
  readonly stands: Place;
  /** Where leaves go, to be read after "lay 0.35": "under the left rail's front end". */
  readonly leavesLie?: Readonly<Partial<Record<"only" | "top" | "bottom", string>>>;
  /** What is done, as a whole sentence, where nothing is moved by an amount. */
  readonly does?: string;
  /** What a person sees moving; null where nothing does, but something runs freer or lies flatter afterwards. */
  readonly moves: Motion | null;
  /** What a person is told of the joint before it is opened. */
  readonly whatHolds: WhatHolds;
  /** What is turned or shifted for it, where the description tells; see `turnedInWords`. */
  readonly turned?: readonly Turned[];
  /**
   * How the machine comes to stand where the move puts it, in whole sentences, where the joint itself does not hold it there
   * but a homing with the drives on does. Left out, the machine stands there as soon as the joint is made fast.
   */
  readonly homesTo?: string;
  /** Steps per mm as the description of the machine has them, where the adjuster is such a number and it is known. */
  readonly stepsPerMmNow?: number;
}

export interface ReadAgain {
  readonly group: string;
  readonly checks: readonly string[];
  readonly minutes: number;
}

/** The screws of one joint, as is common: count and size without a source, places from the machine's dimensions. */
export interface Fasteners {
  /** "the screws in the slots of the left side plate, usually M6"; without screws, what is done instead. */
  readonly words: string;
  /** Middles of their heads in the work frame, mm, in the order of their numbers; none where nothing is loosened. */
  readonly places: readonly Place[];
  /** The member into which they go; null without screws. */
  readonly member: Member | null;
  /** From which side a person gets at them. */
  readonly seenFrom: "above" | "front" | "left" | "right";
}

/** A place of a member and the way it goes when the amount grows. */
export interface Motion {
  /** "the beam's right end". */
  readonly words: string;
  readonly member: Member;
  /** In the work frame, mm. */
  readonly place: Place;
  /** Unit vector in the work frame; a table that carries the work is seen from the floor. */
  readonly along: Place;
  /** Place of the same member that stays where it is: from there the way counts. Null: it counts from the frame. */
  readonly heldAt: Place | null;
  /**
   * For an amount in mm/m: the length over which the hand's way is measured, mm, and what it is. The way is then the
   * amount times this length; for an amount in mm it is the amount itself.
   */
  readonly over?: { readonly lengthMm: number; readonly words: string };
}

export interface WhatHolds {
  /** What else comes loose with it, in a sentence; null where nothing does. */
  readonly alsoLoose: string | null;
  /** What to hold, to mark and to mind, each a sentence. What the maker states comes before them. */
  readonly cautions: readonly string[];
}
