import type { DemandDraft } from "../../app/demand-changes.ts";
import type { workAsJson } from "../../app/work-json.ts";
import type { DemandKindId } from "../../core/work/demand.ts";
import type { DemandVerdict } from "../../core/work/demand-result.ts";
import type { Answer, NextThing, ShareRow, Told } from "./protocol-parts.ts";

/** Sizes of the pictures, in mm or degrees, by picture and by the size's key; what is left out is the usual. */
export type PictureSizes = Readonly<Record<string, Readonly<Record<string, number>>>>;

export interface WorkAsked {
  /** A kind of work to look at, whatever the logbook says; null for the logbook's own. */
  readonly kind: string | null;
  readonly sizes: PictureSizes;
  /** Whether what the plan would make of it stands beside it. */
  readonly after: boolean;
}

/** What the work comes out like. */
export interface WorkPage {
  readonly machine: string;
  /** Of how many events it was worked out. */
  readonly version: number;
  readonly chance: string;
  /** Whether there is a plan that moves something beside it. */
  readonly moved: boolean;
  /** Said where the plan was asked for and moves nothing. */
  readonly nothingMoved: string;
  readonly demands: readonly WorkDemand[];
  readonly pictures: readonly WorkPicture[];
  /** The same as the command line gives to machines, unrounded. */
  readonly numbers: ReturnType<typeof workAsJson>;
}

export interface WorkDemand {
  readonly id: string;
  readonly title: string;
  readonly unit: string;
  readonly limit: string;
  readonly value: string;
  /** "0.12 to 0.31", in 95 cases of 100. */
  readonly interval: string;
  readonly chance: string;
  readonly verdict: DemandVerdict;
  /** Nothing has been read that bears on it: the interval is what is usual of machines like this. */
  readonly unread: boolean;
  readonly bar: string;
  readonly after: (Pick<WorkDemand, "value" | "interval" | "chance"> & { readonly verdict: DemandVerdict }) | null;
}

export interface WorkPicture {
  readonly id: string;
  /** What it is of, without its sizes. */
  readonly words: string;
  /** Sizes included; empty where they cannot be had, and then `told` says why. */
  readonly title: string;
  readonly wide: string;
  readonly narrow: string;
  readonly rows: readonly { readonly words: string; readonly now: string; readonly after: string | null }[];
  readonly told: readonly Told[];
  readonly sizes: readonly PictureSize[];
}

/** A size that can be asked for. */
export interface PictureSize {
  readonly key: string;
  readonly words: string;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
}

/** What is asked of the machine, beside what it comes to: quick to have. */
export interface WorkBoard {
  readonly machine: string;
  readonly version: number;
  readonly gate: readonly string[];
  /** Whether somebody has said what the machine is for. */
  readonly isAsked: boolean;
  readonly chosen: string;
  readonly kinds: readonly { readonly id: string; readonly name: string; readonly about: string }[];
  readonly demands: readonly StatedDemandPage[];
  /** What can be demanded beside. */
  readonly demandKinds: readonly DemandKindPage[];
}

export interface StatedDemandPage {
  readonly id: string;
  readonly title: string;
  readonly unit: "mm" | "mm/m";
  readonly limitValue: number;
  /** The user's own name for it; null for one of the kind of work. */
  readonly name: string | null;
  /** What the kind of work asks where the user asks for something else; empty elsewhere. */
  readonly usual: string;
  readonly dropped: boolean;
  readonly why: string;
  readonly decidedBy: string;
}

export interface DemandKindPage {
  readonly id: DemandKindId;
  readonly words: string;
  readonly unit: "mm" | "mm/m";
  readonly sizes: readonly (
    | {
        readonly key: string;
        readonly words: string;
        readonly unit: string;
        readonly from: number;
        readonly to: number;
        readonly usual: number;
      }
    | { readonly key: string; readonly words: string; readonly answers: readonly string[]; readonly usual: string }
  )[];
}

/** What a demand means for the work, and what would decide it. */
export interface DemandGrounds {
  readonly meaning: string;
  /** Where its doubt comes from; empty where nothing has been read that bears on it. */
  readonly doubtFrom: readonly ShareRow[];
  readonly words: readonly string[];
  readonly checks: readonly NextThing[];
}

/** Limits are in the demand's own unit. */
export type DemandChange =
  | { readonly kind: "limit"; readonly demand: string; readonly limit: number }
  | { readonly kind: "usual"; readonly demand: string }
  | { readonly kind: "drop"; readonly demand: string }
  | {
      readonly kind: "ask";
      readonly of: DemandKindId;
      readonly sizes: Readonly<Record<string, number | string>>;
      readonly limit: number;
    };

export interface WorkRequests {
  work: { ask: { machine: string; asked: WorkAsked }; answer: Answer<WorkPage> };
  workBoard: { ask: { machine: string }; answer: Answer<WorkBoard> };
  /** A change of what is asked, as an event that the logbook would take. */
  changeDemand: { ask: { machine: string; change: DemandChange }; answer: Answer<DemandDraft> };
  demand: { ask: { machine: string; kind: string | null; demand: string }; answer: Answer<DemandGrounds> };
}
