import { poseAt } from "../machine/joint.ts";
import { type Scene, tip } from "../machine/kinematics.ts";
import { type Dual, distance, scale, weightedSum } from "../numerics/dual.ts";
import {
  bothLayouts,
  type CheckUnknown,
  type GeometricCheck,
  longestReading,
  optionOf,
  type Setup,
  type Station,
} from "./check.ts";
import { comparedOption } from "./compared-option.ts";
import { sixLengths } from "./grid-diagonals.ts";
import { words } from "./words/hole-rectangle.ts";

/** Diameter of the holes as programmed, mm. */
export const HOLE = 6;

export const holeSize: CheckUnknown = {
  key: "hole",
  scope: "run",
  words: "how much larger the holes are than programmed",
  mean: 0,
  sd: 0.1,
};

/**
 * Distance of two centres − nominal, − the hole's size between near edges and + between far edges. All holes are reached
 * from the same side. Pricked marks have no size and no edges.
 */
export const holeRectangle: GeometricCheck = {
  id: "hole-rectangle",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["calipers", "tape", "rule", "pinch rods"],
  // Jaws bear on the edges of a hole; a prick has none, and is read where a line or a point meets it.
  instrumentsWith: (given) => (given.marks === "pricks" ? ["rule", "tape", "pinch rods"] : holeRectangle.instruments),
  // Pricks span the travel, and the larger rectangle shows the smaller slant.
  answersWith: (family) => ({ marks: family === "calipers" ? "holes" : "pricks" }),
  roles: [],
  lastingError: "enters",
  atTip: true,
  options: [
    { key: "marks", question: "What marks the corners?", answers: ["holes", "pricks"], usual: "holes" },
    comparedOption,
  ],
  stations: (setup) => {
    const { Lx, Ly } = setup.machine.dimensions;
    const holes = hasHoles(setup);
    const [a, b] = holes ? rectangleFor(setup) : prickedRectangleFor(setup);
    const lengths = sixLengths(Lx / 2 - a / 2, Ly / 2 - b / 2, Lx / 2 + a / 2, Ly / 2 + b / 2);
    if (!holes) return lengths;
    return [edgeLengths(lengths, "near", -1), edgeLengths(lengths, "far", 1)].flat();
  },
  unknowns: (setup) => (hasHoles(setup) ? [holeSize] : []),
  predict: (scene, station, setup, unknown) => {
    const length = lengthBetween(scene, station);
    if (!hasHoles(setup)) return length;
    return weightedSum([1, station.figures?.edge as number], [length, unknown("hole")]);
  },
};

/** Distance of the places where the tool was commanded to both ends, less the distance of the commanded places. */
export function lengthBetween(scene: Scene, station: Station): Dual {
  const to = station.to as NonNullable<Station["to"]>;
  const commanded = Math.hypot(to[0] - station.at[0], to[1] - station.at[1]);
  return scale(1, distance(tip(scene, poseAt(...station.at)), tip(scene, poseAt(...to))), -commanded);
}

/** Lengths read between the near (−1) or the far (+1) edges of holes. */
export function edgeLengths(
  lengths: readonly (Station & { readonly nominal: number })[],
  edge: "near" | "far",
  sign: 1 | -1,
): readonly Station[] {
  return lengths.map((length) => ({
    ...length,
    key: `${length.key}, ${edge}`,
    words: `${length.words}, between ${edge} edges`,
    nominal: length.nominal + sign * HOLE,
    figures: { edge: sign },
  }));
}

/** Sides of the rectangle: 0.7 of the calipers' range, and the largest other side whose diagonal they still span. */
function rectangleFor(setup: Setup): readonly [number, number] {
  const { Lx, Ly } = setup.machine.dimensions;
  const range = Math.min(longestReading(setup) ?? 300, 1000);
  const a = Math.min(Math.floor((0.7 * range) / 15) * 15, Math.floor((0.9 * Lx) / 15) * 15);
  // Between far edges the diagonal is longer by a hole, and 3.5 % of the range is left over for the jaws.
  const reach = Math.sqrt((0.965 * range - HOLE) ** 2 - a * a);
  const b = Math.min(Math.floor(reach / 5) * 5, Math.floor((0.9 * Ly) / 5) * 5);
  return [a, b];
}

/** Sides of the rectangle of pricked marks: 10 % in from the travel's edges, or as large as the tool still spans. */
function prickedRectangleFor(setup: Setup): readonly [number, number] {
  const { Lx, Ly } = setup.machine.dimensions;
  const [a, b] = [0.8 * Lx, 0.8 * Ly];
  const longest = longestReading(setup) ?? Number.POSITIVE_INFINITY;
  const shrink = Math.min(1, (0.98 * longest) / Math.hypot(a, b));
  return [shrink * a, shrink * b];
}

function hasHoles(setup: Setup): boolean {
  return optionOf(holeRectangle, setup, "marks") === "holes";
}
