import { poseAt } from "../../machine/joint.ts";
import { bedHeight, type Scene, tip } from "../../machine/kinematics.ts";
import { type Dual, subtract } from "../../numerics/dual.ts";
import type { PlanPlace } from "./work-place.ts";

/** Work of even thickness on the bed, touched off on its upper face at one place. Lengths in mm. */
export interface TouchedOff {
  readonly thickness: number;
  readonly at: PlanPlace;
}

/** How deep a cut of the commanded depth is at a place. */
export type DepthOfCut = (place: PlanPlace, depth: number) => Dual;

/**
 * Depth of a cut: the tool's height over the bed where it was touched off, less its height over the bed at the place.
 * The work lies close to the bed, so that its upper face has the bed's shape.
 *
 *   [T.z(p₀, t) − B(T.xy)] − [T.z(p, t − depth) − B(T.xy)]
 */
export function depthOfCut(scene: Scene, { thickness, at }: TouchedOff): DepthOfCut {
  const touched = heightOverBed(scene, at, thickness);
  return (place, depth) => subtract(touched, heightOverBed(scene, place, thickness - depth));
}

function heightOverBed(scene: Scene, { x, y }: PlanPlace, z: number): Dual {
  const there = tip(scene, poseAt(x, y, z));
  return subtract(there.z, bedHeight(scene, there.x, there.y));
}
