import { areaPlaces } from "../findings/paths.ts";
import { poseAt } from "../machine/joint.ts";
import { bedHeight, type Scene, tip } from "../machine/kinematics.ts";
import { type Dual, subtract } from "../numerics/dual.ts";
import { type Chosen, type NumberSize, show } from "./demand-kind.ts";

/** How far in from the edges of the travel the outermost of the places over the whole bed stand, as a share of it. */
const MARGIN = areaPlaces[0][0];

/**
 * Width and depth of a field of work about its middle: five by five places, its edges among them. What is usual is as
 * stated, or from 5 to 95 % of the travel.
 */
export function areaSizes(usualWidthMm?: number, usualDepthMm?: number): readonly NumberSize[] {
  return [
    {
      key: "widthMm",
      words: "width, left to right,",
      unit: "mm",
      from: 10,
      to: 5000,
      usual: ({ machine }) => usualWidthMm ?? (1 - 2 * MARGIN) * machine.dimensions.Lx,
      most: roomAlongX,
    },
    {
      key: "depthMm",
      words: "depth, front to rear,",
      unit: "mm",
      from: 10,
      to: 5000,
      usual: ({ machine }) => usualDepthMm ?? (1 - 2 * MARGIN) * machine.dimensions.Ly,
      most: roomAlongY,
    },
  ];
}

/** Twice the way from the middle to the nearer end of the travel. */
export function roomAlongX({ machine, middle }: Chosen): number {
  return 2 * Math.min(middle.x, machine.dimensions.Lx - middle.x);
}

export function roomAlongY({ machine, middle }: Chosen): number {
  return 2 * Math.min(middle.y, machine.dimensions.Ly - middle.y);
}

export function areaInWords({ numbers }: Chosen): string {
  return `${show(numbers.widthMm)} × ${show(numbers.depthMm)}`;
}

/** The same five by five places as over the whole bed, drawn together to the field. */
export function placesOfArea({ middle, numbers }: Chosen): readonly { readonly x: number; readonly y: number }[] {
  const whole = 1 - 2 * MARGIN;
  return areaPlaces.map(([u, v]) => ({
    x: middle.x + ((u - 0.5) / whole) * numbers.widthMm,
    y: middle.y + ((v - 0.5) / whole) * numbers.depthMm,
  }));
}

/** Height of the tip over the bed at commanded z = 0, mm. */
export function heightsOverBedAt(scene: Scene, chosen: Chosen): readonly Dual[] {
  return placesOfArea(chosen).map(({ x, y }) => {
    const place = tip(scene, poseAt(x, y, 0));
    return subtract(place.z, bedHeight(scene, place.x, place.y));
  });
}
