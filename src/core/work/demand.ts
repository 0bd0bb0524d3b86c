import type { Scene } from "../machine/kinematics.ts";
import type { Dual } from "../numerics/dual.ts";

/** What a piece of work can ask of a machine. */
export type DemandKindId =
  | "size"
  | "sides"
  | "squareness"
  | "diagonals"
  | "circle"
  | "depth-spread"
  | "through-cut"
  | "stroke-spread"
  | "ridge"
  | "flatness"
  | "wall-lean"
  | "plunge-lean"
  | "tram"
  | "play"
  | "scale"
  | "runout"
  | "hole-pattern";

/** Sizes that a kind of demand takes, in mm, degrees (`angleDegrees`) or a letter of an axis, by name. */
export type DemandSizes = Readonly<Record<string, number | string>>;

/** A demand as a person states it. What is left out of the sizes and the place is the kind's default. */
export interface DemandWish {
  readonly kind: DemandKindId;
  readonly sizes: DemandSizes;
  /** Middle of the work in the work frame, mm; the middle of the travel when left out. */
  readonly place?: { readonly x: number; readonly y: number };
  /** In the kind's unit. */
  readonly limit: number;
}

/**
 * A demand made fit for one machine: some samples that depend smoothly on the machine, and one number from them.
 *
 * - "largest": the largest sample in size must not exceed the limit.
 * - "spread": highest less lowest sample must not exceed the limit.
 */
export interface Demand {
  /** One word or two with the sizes, e.g. "depth-spread 400×150": the same wish on the same machine has the same id. */
  readonly id: string;
  readonly kind: DemandKindId;
  /** What a person reads, sizes included: "Spread of depth over 400 × 150". */
  readonly title: string;
  readonly unit: "mm" | "mm/m";
  readonly limit: number;
  readonly form: "largest" | "spread";
  /** For a spread: areas or paths that count each by itself, from and up to (not with) a sample; all samples when absent. */
  readonly groups?: readonly (readonly [from: number, to: number])[];
  /** Samples that are enough to plan by, those between them saying nearly the same; all samples when absent. */
  readonly enoughToPlan?: ReadonlySet<number>;
  /** Whether the surface of the bed plays a part: skimming then changes the answer. */
  readonly againstBed: boolean;
  /** In the demand's unit. The number and order of the samples are the same for every state of one machine. */
  samples(scene: Scene): readonly Dual[];
  /** One plain sentence on what a value means for the work; the value is in the demand's unit. */
  meaning(value: number): string;
}

export type SampleGroup = readonly [from: number, to: number];

/** The demand's number from its samples' values. */
export function reduceSamples({ form, groups }: Pick<Demand, "form" | "groups">, values: ArrayLike<number>): number {
  if (groups === undefined) return reduceGroup(form, values, 0, values.length);
  let largest = 0;
  for (const [from, to] of groups) largest = Math.max(largest, reduceGroup(form, values, from, to));
  return largest;
}

function reduceGroup(form: Demand["form"], values: ArrayLike<number>, from: number, to: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = from; i < to; i++) {
    if (values[i] < low) low = values[i];
    if (values[i] > high) high = values[i];
  }
  return form === "spread" ? high - low : Math.max(high, -low);
}
