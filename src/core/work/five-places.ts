import { tramPlaces } from "../checks/tram-places.ts";
import { poseAt } from "../machine/joint.ts";
import { type BedDirections, bedDirections, type Scene, tip } from "../machine/kinematics.ts";
import { type Dual, type DualVector, divide, dot, scale } from "../numerics/dual.ts";
import { type Chosen, type NumberSize, show } from "./demand-kind.ts";

/** The one place that is wished for, else the five places of tram with so much room about them, mm. */
export function placesToJudge(
  { machine, middle, placed }: Chosen,
  radius?: number,
): readonly { readonly x: number; readonly y: number }[] {
  return placed ? [middle] : tramPlaces(machine.dimensions, radius);
}

/** "at the worst of five places", or nothing where one place was asked about. */
export function worstInWords({ placed }: Chosen): string {
  return placed ? "" : ", at the worst of five places";
}

/** A depth below the surface of the work, no more than Z goes. */
export function depthSize(usualMm: number): NumberSize {
  return {
    key: "depthMm",
    words: "depth",
    unit: "mm",
    from: 0.1,
    to: 1000,
    usual: () => usualMm,
    most: ({ machine }) => machine.dimensions.Lz,
  };
}

export function depthInWords({ numbers }: Chosen): string {
  return `through ${show(numbers.depthMm)}`;
}

/**
 * How far something that points `up` goes over, to the right and to the rear, over a height of `depthMm` along the bed's
 * normal under the tip: up·e/(up·n)·depth. mm.
 */
export function leansAgainstBed(
  scene: Scene,
  place: { readonly x: number; readonly y: number },
  up: DualVector,
  depthMm: number,
): readonly [side: Dual, fore: Dual] {
  const foot = tip(scene, poseAt(place.x, place.y, 0));
  const { alongX, alongY, normal }: BedDirections = bedDirections(scene, foot.x, foot.y);
  const height = dot(up, normal);
  return [scale(depthMm, divide(dot(up, alongX), height)), scale(depthMm, divide(dot(up, alongY), height))];
}
