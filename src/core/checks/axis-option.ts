import type { Axis } from "../machine/description.ts";
import type { CheckOption } from "./check.ts";

/** Which axis a powered check moves. */
export const axisOption: CheckOption = { key: "axis", question: "Which axis?", answers: ["X", "Y", "Z"], usual: "X" };

export function axisFromOption(answer: string | number): Axis {
  const name = String(answer).toLowerCase();
  return name === "y" || name === "z" ? name : "x";
}

/** The middle of the travel with one coordinate put elsewhere. */
export function middleWith(
  travel: { readonly Lx: number; readonly Ly: number; readonly Lz: number },
  axis: Axis,
  value: number,
): readonly [number, number, number] {
  const middle = { x: travel.Lx / 2, y: travel.Ly / 2, z: Math.min(20, travel.Lz / 2), [axis]: value };
  return [middle.x, middle.y, middle.z];
}

export function lengthOfTravel(
  travel: { readonly Lx: number; readonly Ly: number; readonly Lz: number },
  axis: Axis,
): number {
  return { x: travel.Lx, y: travel.Ly, z: travel.Lz }[axis];
}
