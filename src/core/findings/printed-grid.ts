import { read } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type LinearFinding, sizeOf } from "./finding.ts";
import { pathSlope } from "./paths.ts";

const shared = { form: "linear", layouts: bothLayouts, sided: "two", hasLimit: false, unit: "mm/m" } as const;

/** The print on the bed: none of the machine's business, but what lines and edges are judged by. */
export const printedGrid: readonly LinearFinding[] = [
  {
    ...shared,
    id: "grid-to-motion",
    title: "Printed grid against the X motion",
    evaluate: (scene) => weightedSum([1, -1000], [read(scene, "grid.yaw"), pathSlope(scene, "x", "y")]),
    meaning: (value) =>
      `The printed X lines are turned ${value > 0 ? "counter-clockwise" : "clockwise"} against the motion, ${sizeOf(value)} in a metre. It is the board, not the machine.`,
  },
  {
    ...shared,
    id: "grid-skew",
    title: "Printed grid’s own skew",
    evaluate: (scene) => read(scene, "grid.skew"),
    meaning: (value) =>
      `The print’s corner is ${value > 0 ? "wider" : "narrower"} than 90° by ${sizeOf(value)} in a metre. It is the print, not the machine.`,
  },
];
