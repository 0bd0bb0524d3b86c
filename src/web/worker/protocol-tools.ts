import type { LogEvent } from "../../logbook/events.ts";
import type { Answer, OwnTool } from "./protocol-parts.ts";

export interface ToolsPage {
  readonly instruments: readonly ToolRow[];
  readonly objects: readonly ToolRow[];
  readonly instrumentKinds: readonly ToolKind[];
  readonly objectKinds: readonly ToolKind[];
}

export interface ToolRow extends OwnTool {
  readonly figures: readonly string[];
  readonly learnt: readonly string[];
  /** Why, where it has been put away. */
  readonly putAway: string | null;
  /** What its owner stated last, as the logbook has it, and as it is typed: a correction begins with it. */
  readonly stated: Readonly<Record<string, unknown>>;
  readonly texts: Readonly<Record<string, string>>;
}

export interface ToolKind {
  readonly id: string;
  readonly name: string;
  readonly family: string;
  readonly figures: readonly string[];
  /** What its owner can state: name of the field, words, unit, and whether it comes with an uncertainty. */
  readonly statements: readonly ToolStatement[];
  /** How many leaves of a set may usually lie on one another; null of what has none. */
  readonly largestStack: number | null;
}

export interface ToolStatement {
  readonly name: string;
  readonly words: string;
  readonly unit: string;
  readonly form: "stated" | "number" | "leaves";
  readonly into: "stated" | "figures" | "nominal";
}

/** A list of leaves as it is understood: fields of an own instrument, and in words. */
export interface LeavesRead {
  readonly leaves: { readonly leavesMm: readonly number[]; readonly largestStack: number };
  readonly markedIn: string | null;
  readonly words: string;
}

export interface ToolsRequests {
  tools: { ask: { machine: string | null }; answer: Answer<ToolsPage> };
  /** With an empty text the usual leaves. */
  leafList: { ask: { kind: string; text: string; largestStack: number }; answer: Answer<LeavesRead> };
  /** With null it is taken out again. */
  putAway: {
    ask: { machine: string; tool: string; because: string | null; by: string };
    answer: Answer<readonly LogEvent[]>;
  };
}
