import { poseAt } from "../machine/joint.ts";
import { read, tip } from "../machine/kinematics.ts";
import { scale, subtract } from "../numerics/dual.ts";
import { bothLayouts, type LinearFinding, sizeOf } from "./finding.ts";
import { pathSlope } from "./paths.ts";

const axes = ["x", "y", "z"] as const;
const shared = { form: "linear", layouts: bothLayouts, hasLimit: true } as const;

/** Linear part of the positioning error: what a metre of commanded travel has too much. */
export const scaleFindings: readonly LinearFinding[] = axes.map((axis) => ({
  ...shared,
  id: `scale.${axis}`,
  title: `Scale of ${axis.toUpperCase()}`,
  symbol: `E(${axis.toUpperCase()}${axis.toUpperCase()})`,
  unit: "mm/m",
  sided: "two",
  evaluate: (scene) => scale(1000, pathSlope(scene, axis, axis), -1000),
  meaning: (value) =>
    `A metre commanded along ${axis.toUpperCase()} comes out ${sizeOf(value)} too ${value > 0 ? "long" : "short"}.`,
}));

/** Arrival going down less arrival going up, at the nose, in the middle of the travel [ISO 230-2 §2.14]. */
export const lostMotionFindings: readonly LinearFinding[] = axes.map((axis) => ({
  ...shared,
  id: `lost-motion.${axis}`,
  title: `Play of ${axis.toUpperCase()}`,
  symbol: "B",
  unit: "mm",
  sided: "one",
  neverNegative: true,
  evaluate: (scene) => {
    const { Lx, Ly, Lz } = scene.machine.dimensions;
    const arrived = { x: "arrivedX", y: "arrivedY", z: "arrivedZ" }[axis];
    const at = (way: 1 | -1) => tip(scene, poseAt(Lx / 2, Ly / 2, Lz / 2, { [arrived]: way }))[axis];
    return subtract(at(-1), at(1));
  },
  meaning: (value) => `Turning round in ${axis.toUpperCase()}, the tool stands still for ${sizeOf(value)}.`,
}));

export const runoutFinding: LinearFinding = {
  ...shared,
  id: "runout",
  title: "Runout",
  unit: "mm",
  sided: "one",
  neverNegative: true,
  evaluate: (scene) => read(scene, "spindle.runout"),
  meaning: (value) => `A pin in the collet runs out by ${sizeOf(value)} in all; the cutter cuts that much wider.`,
};
