import type { Caution } from "./cautions.ts";

/** When in the life of a machine a check can first be done, in the order in which a machine passes through them. */
export const stages = [
  "bare frame",
  "gantry on rails",
  "slide mounted",
  "spindle mounted",
  "powered",
  "cutting",
] as const;

export type Stage = (typeof stages)[number];

/**
 * All that a person reads about a check, in the words of the trade. Figures are common practice without a source
 * unless the text names a standard.
 */
export interface CheckWords {
  /** Name of the check as a heading, without a full stop. */
  readonly title: string;
  /** One sentence: what is known afterwards that was not known before. */
  readonly settles: string;
  /** Time for one run with the default stations, in minutes. */
  readonly minutes: number;
  readonly stage: Stage;
  /** What to have at hand. */
  readonly tools: readonly string[];
  /** Set-up and reading, one action a step, in order. */
  readonly steps: readonly string[];
  /** What is set up and stays standing while it is read, as a whole sentence; left out where each reading is set up by itself. */
  readonly setUp?: string;
  /** Which way plus is, in words a person at the machine can check with a finger. */
  readonly sign: string;
  /** The commonest mistakes, the commonest first. */
  readonly goesWrong: readonly string[];
  /** What a freshly built and what a well set machine shows. */
  readonly typical: string;
  /** Shown above the steps, never folded away. */
  readonly cautions: readonly Caution[];
}
