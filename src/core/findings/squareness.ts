import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type LinearFinding, sizeOf } from "./finding.ts";
import { pathSlope } from "./paths.ts";

/** The square that people cut to see it, mm, and by how much its diagonals differ for each mm/m, mm. */
const SQUARE = 300;
const DIAGONALS = (Math.SQRT2 * SQUARE) / 1000;

/**
 * E(C0Y) = −(dY/dX of the X path + dX/dY of the Y path), least-squares lines in plan; + when the angle from +X to +Y
 * is wider than 90°. A beam racked by +2 mm/m (right end to the rear) gives −2.
 */
export const squareness: LinearFinding = {
  id: "squareness",
  form: "linear",
  title: "Squareness of Y to X",
  symbol: "E(C0Y)",
  unit: "mm/m",
  layouts: bothLayouts,
  sided: "two",
  hasLimit: true,
  evaluate: (scene) => weightedSum([-1000, -1000], [pathSlope(scene, "x", "y"), pathSlope(scene, "y", "x")]),
  meaning: (value) =>
    `A line cut along Y ends ${sizeOf(value)} to the ${value > 0 ? "left" : "right"} of square after a metre: ` +
    `the corner at the front left is ${value > 0 ? "wider" : "narrower"} than 90°, ` +
    `and a square of ${SQUARE} mm comes out ${sizeOf(Number((DIAGONALS * value).toFixed(2)))} longer on one diagonal.`,
};
