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
}

export interface ReadAgain {
  readonly group: string;
  readonly checks: readonly string[];
  readonly minutes: number;
}
