import { bump } from "../machine/joint.ts";
import type { Scene } from "../machine/kinematics.ts";
import { type Dual, weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type LinearFinding, type SampledFinding, sizeOf } from "./finding.ts";
import { areaPlaces, heightsOverBed } from "./paths.ts";
import { leastSquaresWeights } from "./surface-weights.ts";

// Terms of the surface: constant, along X, along Y, twist, dome along X, dome along Y; slopes in fractions of the travel.
const weights = leastSquaresWeights(
  areaPlaces.map(([u, v]) => [1, u - 0.5, v - 0.5, 4 * (u - 0.5) * (v - 0.5), bump(u), bump(v)]),
);

/** One coefficient of the least-squares surface of tool height over bed. */
function surfaceTerm(scene: Scene, term: number, factor: number): Dual {
  return weightedSum(
    weights[term].map((weight) => factor * weight),
    heightsOverBed(scene),
  );
}

const shared = { form: "linear", layouts: bothLayouts, sided: "two", hasLimit: true } as const;

export const overBed: readonly LinearFinding[] = [
  {
    ...shared,
    id: "over-bed.x",
    title: "X motion over the bed",
    unit: "mm/m",
    evaluate: (scene) => surfaceTerm(scene, 1, 1000 / scene.machine.dimensions.Lx),
    meaning: (value) =>
      `Going right by a metre, the tool ${value > 0 ? "rises from" : "comes down to"} the bed by ${sizeOf(value)}.`,
  },
  {
    ...shared,
    id: "over-bed.y",
    title: "Y motion over the bed",
    unit: "mm/m",
    evaluate: (scene) => surfaceTerm(scene, 2, 1000 / scene.machine.dimensions.Ly),
    meaning: (value) =>
      `Going to the rear by a metre, the tool ${value > 0 ? "rises from" : "comes down to"} the bed by ${sizeOf(value)}.`,
  },
  {
    ...shared,
    id: "over-bed.twist",
    title: "Twist of motion to bed",
    unit: "mm",
    evaluate: (scene) => surfaceTerm(scene, 3, 1),
    meaning: (value) =>
      `At the front left and rear right corners the tool stands ${sizeOf(value)} ${value > 0 ? "higher" : "lower"} over the bed than a flat fit says.`,
  },
  {
    ...shared,
    id: "over-bed.dome.x",
    title: "Dome of motion to bed, left to right",
    unit: "mm",
    evaluate: (scene) => surfaceTerm(scene, 4, 1),
    meaning: (value) =>
      `In the middle from left to right the tool stands ${sizeOf(value)} ${value > 0 ? "higher" : "lower"} over the bed than at the ends.`,
  },
  {
    ...shared,
    id: "over-bed.dome.y",
    title: "Dome of motion to bed, front to rear",
    unit: "mm",
    evaluate: (scene) => surfaceTerm(scene, 5, 1),
    meaning: (value) =>
      `In the middle from front to rear the tool stands ${sizeOf(value)} ${value > 0 ? "higher" : "lower"} over the bed than at the ends.`,
  },
];

/** Highest less lowest height of the tool over the bed, five by five places. */
export const depthSpread: SampledFinding = {
  id: "depth-spread",
  form: "sampled",
  title: "Spread of depth over the whole bed",
  unit: "mm",
  layouts: bothLayouts,
  sided: "one",
  hasLimit: true,
  samples: heightsOverBed,
  reduce: spread,
  meaning: (value) => `A cut of one commanded depth comes out ${sizeOf(value)} deeper in one place than in another.`,
};

export function spread(values: ArrayLike<number>): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    if (values[i] < low) low = values[i];
    if (values[i] > high) high = values[i];
  }
  return high - low;
}
