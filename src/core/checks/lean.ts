import type { Pose } from "../machine/joint.ts";
import { bedDirections, placeOnMember, type Scene, tip } from "../machine/kinematics.ts";
import type { Member } from "../machine/modes.ts";
import { type Dual, divide, dot, subtractVectors } from "../numerics/dual.ts";

/**
 * lean = (P2 − P1)·e / ((P2 − P1)·n): how far an upright face or flank goes over per unit of height, measured against
 * the bed under it. P1, P2: two points of the member, one over the other, H apart. e: the bed's tangent towards +X
 * ("side") or +Y ("fore"); n: its normal. Dimensionless (mm per mm), + to the right or to the rear.
 */
export function leanOfMember(
  scene: Scene,
  member: Member,
  foot: readonly [number, number, number],
  height: number,
  towards: "side" | "fore",
  pose: Pose,
): Dual {
  const low = placeOnMember(scene, member, foot, pose);
  const high = placeOnMember(scene, member, [foot[0], foot[1], foot[2] + height], pose);
  const up = subtractVectors(high, low);
  const under = member === "beam" ? low : tip(scene, pose);
  const { alongX, alongY, normal } = bedDirections(scene, under.x, under.y);
  return divide(dot(up, towards === "side" ? alongX : alongY), dot(up, normal));
}
