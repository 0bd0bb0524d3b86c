import type { LayoutId } from "../machine/description.ts";
import type { Scene } from "../machine/kinematics.ts";
import type { Machine } from "../machine/machine.ts";
import type { Dual } from "../numerics/dual.ts";

/** Unit of a finding as it is shown: a length, an angle in mm per m, or a length over a stated base. */
export type FindingUnit = "mm" | "mm/m" | "mm in 200" | "mm in 100";

interface FindingBase {
  readonly id: string;
  /** The plain name, which leads. */
  readonly title: string;
  /** The standard's name, which stands small behind it [ISO 230-1]. */
  readonly symbol?: string;
  readonly unit: FindingUnit;
  readonly layouts: readonly LayoutId[];
  /** "two": limits on both sides of nothing. "one": a size, never negative. */
  readonly sided: "two" | "one";
  /** Whether work can set a limit for it; what only the build cares for, or nobody, has none. */
  readonly hasLimit: boolean;
  /** One sentence that says what the value means at the machine; the value is in the finding's unit. */
  meaning(value: number): string;
}

/** A smooth function of the state: value ± U. */
export interface LinearFinding extends FindingBase {
  readonly form: "linear";
  evaluate(scene: Scene): Dual;
  /** Play and runout: what is below nothing is not believed. */
  readonly neverNegative?: boolean;
}

/** A largest, a smallest or a spread over samples: its interval comes from the joint distribution of the samples. */
export interface SampledFinding extends FindingBase {
  readonly form: "sampled";
  samples(scene: Scene): readonly Dual[];
  reduce(values: ArrayLike<number>, machine: Machine): number;
}

export type Finding = LinearFinding | SampledFinding;

export const bothLayouts: readonly LayoutId[] = ["moving-gantry", "fixed-bridge"];

/** "0.35 mm" of a size in words: no sign, and no more digits than it was given with. */
export function sizeOf(value: number): string {
  return `${Number(Math.abs(value).toFixed(3))} mm`;
}

/** The unit that a limit for the finding is typed in; over a stated base it is a plain length. */
export function findingUnitOf(finding: Finding): "mm" | "mm/m" {
  return finding.unit === "mm/m" ? "mm/m" : "mm";
}
