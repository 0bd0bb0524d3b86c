import { poseAt } from "../machine/joint.ts";
import { bedHeight, placeOnMember, type Scene } from "../machine/kinematics.ts";
import { type Dual, subtract } from "../numerics/dual.ts";
import { bothLayouts, type LinearFinding, sizeOf } from "./finding.ts";

/** Height of the beam's underside over the bed: right station less left, at the front and at the rear. */
export const beamOverBed: readonly LinearFinding[] = (["front", "rear"] as const).map((end) => ({
  id: `beam-over-bed.${end}`,
  form: "linear",
  title: `Beam over bed, left to right, at the ${end}`,
  unit: "mm",
  layouts: bothLayouts,
  sided: "two",
  hasLimit: true,
  evaluate: (scene) => {
    const { Lx, Ly, ty } = scene.machine.dimensions;
    const y = end === "front" ? Math.max(0.15 * Ly, -ty + 5) : Math.min(0.9 * Ly, Ly - 5);
    return subtract(gapAt(scene, 0.9 * Lx, y), gapAt(scene, 0.1 * Lx, y));
  },
  meaning: (value) =>
    `At the ${end} the right end of the beam stands ${sizeOf(value)} ${value > 0 ? "higher" : "lower"} over the bed than the left.`,
}));

function gapAt(scene: Scene, x: number, y: number): Dual {
  const { ty, zu } = scene.machine.dimensions;
  const under = placeOnMember(scene, "beam", [x, y, zu], poseAt(x, y + ty, 0));
  return subtract(under.z, bedHeight(scene, under.x, under.y));
}
