import { tramPlaces } from "../checks/tram-places.ts";
import { swungGap } from "../checks/tram-sweep.ts";
import { subtract } from "../numerics/dual.ts";
import { bothLayouts, type SampledFinding, sizeOf } from "./finding.ts";

/** Opposite points of a circle of 200 mm, + when the bed is nearer at the right (or the rear); the worst of five places. */
export const tramFindings: readonly SampledFinding[] = (["side", "fore"] as const).map((way) => ({
  id: `tram.${way}`,
  form: "sampled",
  title: `Cutter’s axis to the bed, ${way === "side" ? "side to side" : "front to rear"}`,
  unit: "mm in 200",
  layouts: bothLayouts,
  sided: "two",
  hasLimit: true,
  samples: (scene) => {
    const from = way === "side" ? 0 : 90;
    return tramPlaces(scene.machine.dimensions).map(({ x, y }) =>
      subtract(swungGap(scene, [x, y, 20], from), swungGap(scene, [x, y, 20], from + 180)),
    );
  },
  reduce: largestInSize,
  meaning: (value) =>
    `At the worst of five places the top of the axis leans to the ${way === "side" ? (value > 0 ? "right" : "left") : value > 0 ? "rear" : "front"}: ${sizeOf(value)} over a swing of 200.`,
}));

/** The value that is farthest from nothing, with its sign. */
export function largestInSize(values: ArrayLike<number>): number {
  let largest = 0;
  for (let i = 0; i < values.length; i++) if (Math.abs(values[i]) > Math.abs(largest)) largest = values[i];
  return largest;
}
