import { poseAt } from "../machine/joint.ts";
import type { Scene } from "../machine/kinematics.ts";
import { spindleAxis } from "../machine/kinematics.ts";
import { type Dual, divide, weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type LinearFinding, sizeOf } from "./finding.ts";
import { pathSlope, planeOfBed, planeOfMotion } from "./paths.ts";

const shared = { form: "linear", layouts: bothLayouts, sided: "two", hasLimit: true } as const;

/** Slope of the spindle's axis to the right or to the rear over the middle of the bed, mm per mm. */
function axisSlope(scene: Scene, of: "x" | "y"): Dual {
  const { Lx, Ly } = scene.machine.dimensions;
  const axis = spindleAxis(scene, poseAt(Lx / 2, Ly / 2, 10));
  return divide(axis[of], axis.z);
}

/** The way of the Z travel: against the plane of motion (ISO's signs) and against the bed. */
export const plungeFindings: readonly LinearFinding[] = [
  {
    ...shared,
    id: "plunge-to-motion.side",
    title: "Plunge to the motion, side to side",
    symbol: "E(B0Z)",
    unit: "mm/m",
    evaluate: (scene) => weightedSum([1000, 1000], [pathSlope(scene, "z", "x"), planeOfMotion(scene).alongX]),
    meaning: (value) =>
      `Going up by a metre, the cutter drifts ${sizeOf(value)} to the ${value > 0 ? "right" : "left"}.`,
  },
  {
    ...shared,
    id: "plunge-to-motion.fore",
    title: "Plunge to the motion, front to rear",
    symbol: "E(A0Z)",
    unit: "mm/m",
    // After the standard's right-handed angle about X: + leans to the front.
    evaluate: (scene) => weightedSum([-1000, -1000], [pathSlope(scene, "z", "y"), planeOfMotion(scene).alongY]),
    meaning: (value) =>
      `Going up by a metre, the cutter drifts ${sizeOf(value)} to the ${value > 0 ? "front" : "rear"}.`,
  },
  {
    ...shared,
    id: "plunge-to-bed.side",
    title: "Plunge to the bed, side to side",
    unit: "mm/m",
    evaluate: (scene) => weightedSum([1000, 1000], [pathSlope(scene, "z", "x"), planeOfBed(scene).alongX]),
    meaning: (value) =>
      `Going up from the bed by a metre, the cutter drifts ${sizeOf(value)} to the ${value > 0 ? "right" : "left"}.`,
  },
  {
    ...shared,
    id: "plunge-to-bed.fore",
    title: "Plunge to the bed, front to rear",
    unit: "mm/m",
    evaluate: (scene) => weightedSum([1000, 1000], [pathSlope(scene, "z", "y"), planeOfBed(scene).alongY]),
    meaning: (value) =>
      `Going up from the bed by a metre, the cutter drifts ${sizeOf(value)} to the ${value > 0 ? "rear" : "front"}.`,
  },
];

/** The spindle's axis against the plane of motion, over a swing of 200 mm, and against the Z travel, over 100 mm. */
export const axisFindings: readonly LinearFinding[] = (["side", "fore"] as const).flatMap((way): LinearFinding[] => {
  const of = way === "side" ? "x" : "y";
  const ends = way === "side" ? (["right", "left"] as const) : (["rear", "front"] as const);
  const words = way === "side" ? "side to side" : "front to rear";
  return [
    {
      ...shared,
      id: `axis-to-motion.${way}`,
      title: `Cutter’s axis to the motion, ${words}`,
      unit: "mm in 200",
      evaluate: (scene) => {
        const plane = planeOfMotion(scene);
        return weightedSum([200, 200], [axisSlope(scene, of), way === "side" ? plane.alongX : plane.alongY]);
      },
      meaning: (value) =>
        `The upper end of the axis leans to the ${value > 0 ? ends[0] : ends[1]}: ${sizeOf(value)} over a swing of 200.`,
    },
    {
      ...shared,
      id: `axis-to-travel.${way}`,
      title: `Cutter’s axis to the plunge, ${words}`,
      unit: "mm in 100",
      evaluate: (scene) => weightedSum([100, -100], [axisSlope(scene, of), pathSlope(scene, "z", of)]),
      meaning: (value) =>
        `The axis leans ${sizeOf(value)} in 100 further to the ${value > 0 ? ends[0] : ends[1]} than the way it plunges.`,
    },
  ];
});
