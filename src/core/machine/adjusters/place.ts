import type { Dimensions } from "../dimensions.ts";

/** A place, or a direction, in the work frame: x, y, z in mm. */
export type Place = readonly [x: number, y: number, z: number];

export const toTheRight: Place = [1, 0, 0];
export const toTheRear: Place = [0, 1, 0];
export const toTheFront: Place = [0, -1, 0];
export const upwards: Place = [0, 0, 1];

/** Where the machine stands in the middle of its travel. */
export function middleOfTravel({ Lx, Ly, Lz }: Dimensions): Place {
  return [Lx / 2, Ly / 2, Lz / 2];
}

/** y of the place v on the rails, where the tool stands at `y`: a table's rails go past the work with the tool. */
export function railY(d: Dimensions, v: number, y: number): number {
  return d.layout === "moving-gantry" ? v * d.Ly - d.ty : (v - 0.5) * d.Ly + y;
}

/**
 * y of a plane between the beam's face and the tool's axis, the tool standing at `y`: 0 is the face, 1 the axis.
 */
export function betweenFaceAndTool(d: Dimensions, y: number, fraction: number): number {
  const way = d.ty <= 0 ? -1 : 1;
  const room = Math.max(24, Math.abs(d.ty) - Math.abs(d.yf));
  return y - d.ty + way * (Math.abs(d.yf) + fraction * room);
}

/** Four places of a rectangle across X and Z, the upper two first, left before right. */
export function facingRectangle(
  [x, y, z]: Place,
  { across, up }: { readonly across: number; readonly up: number },
): readonly Place[] {
  return [up / 2, -up / 2].flatMap((dz) => [-across / 2, across / 2].map((dx): Place => [x + dx, y, z + dz]));
}
