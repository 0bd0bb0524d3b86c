import { minimumZoneWidth } from "../geometry/straightness.ts";
import type { Scene } from "../machine/kinematics.ts";
import { bothLayouts, type SampledFinding, sizeOf } from "./finding.ts";
import { PATH_POINTS, pathAlong } from "./paths.ts";

const STEPS = Array.from({ length: PATH_POINTS }, (_, i) => i);

/** Width of the minimum zone of the path of one axis, seen from above or from the side [ISO 230-1 §3.4]. */
function straightness(id: string, axis: "x" | "y", of: "x" | "y" | "z", title: string, symbol: string): SampledFinding {
  return {
    id,
    form: "sampled",
    title,
    symbol,
    unit: "mm",
    layouts: bothLayouts,
    sided: "one",
    hasLimit: true,
    samples: (scene: Scene) => pathAlong(scene, axis).points.map((point) => point[of]),
    reduce: (values) => minimumZoneWidth(STEPS, values),
    meaning: (value) =>
      `The tool's path along ${axis.toUpperCase()} lies between two straight lines ${sizeOf(value)} apart.`,
  };
}

export const straightnessFindings: readonly SampledFinding[] = [
  straightness("straightness.x.plan", "x", "y", "Straightness of X, in plan", "E(YX)"),
  straightness("straightness.x.upright", "x", "z", "Straightness of X, upright", "E(ZX)"),
  straightness("straightness.y.plan", "y", "x", "Straightness of Y, in plan", "E(XY)"),
  straightness("straightness.y.upright", "y", "z", "Straightness of Y, upright", "E(ZY)"),
];
