import type { DiagnosticCode } from "../../core/base/diagnostic-words.ts";

/* What several of the questions between the page and its worker share. */

/** A refusal or a remark, with the field it is about where there is one; the page has the words for it. */
export interface Told {
  readonly code: DiagnosticCode;
  readonly refuses: boolean;
  readonly data: Readonly<Record<string, string | number>>;
  readonly field: string | null;
  readonly line: number | null;
}

export type Answer<T> =
  | { readonly ok: true; readonly value: T; readonly told: readonly Told[] }
  | { readonly ok: false; readonly told: readonly Told[] };

/** What to do now, and where on the page that is done: a path below the machine's own address. */
export interface NextThing {
  readonly title: string;
  readonly why: string;
  readonly minutes: number | null;
  /** With what; empty where nothing is needed. */
  readonly tools: string;
  readonly button: string;
  readonly path: string;
}

/** One of those that carry what is known, or what is in doubt. */
export interface ShareRow {
  readonly what: string;
  readonly share: string;
  /** The same as a number, of 1. */
  readonly part: number;
}

export type OptionValue = string | number | boolean;

/** How a run is set up: as it stands in an address, and in the event that begins the run. */
export interface SetupChoice {
  readonly check: string;
  readonly instrument: string | null;
  readonly objects: Readonly<Record<string, string>>;
  readonly options: Readonly<Record<string, OptionValue>>;
  readonly conditions: Readonly<Record<string, string | number>>;
}

/** What a station's fields ask for. */
export interface EntryForm {
  readonly kind: "verdict" | "leaves" | "number";
  /** Names of the entries of one station, one or two. */
  readonly parts: readonly string[];
  /** The places in `parts` in the order in which they are asked. */
  readonly order: readonly number[];
  readonly unit: string;
  readonly units: readonly { readonly id: string; readonly symbol: string }[];
  readonly signed: boolean;
  readonly quantity: string;
  /** What the instrument can show, in words; empty where it has no end. */
  readonly range: string;
  readonly instrument: string;
}

export interface OwnTool {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly family: string;
}
