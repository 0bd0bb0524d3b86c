import type { LayoutId } from "../machine/description.ts";
import { read } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type LinearFinding, sizeOf } from "./finding.ts";

const shared = { form: "linear", sided: "two", hasLimit: false, unit: "mm" } as const;
const gantry: readonly LayoutId[] = ["moving-gantry"];

/** What the build cares for and the work does not feel. */
export const railFindings: readonly LinearFinding[] = [
  {
    ...shared,
    id: "rails.wind",
    title: "Wind of the rails",
    layouts: bothLayouts,
    evaluate: (scene) =>
      weightedSum(
        [1, -1, -1, 1],
        ["rail.right.rear", "rail.left.rear", "rail.right.front", "rail.left.front"].map((id) => read(scene, id)),
      ),
    meaning: (value) =>
      `From front to rear the right rail ${value > 0 ? "rises" : "falls"} by ${sizeOf(value)} against the left.`,
  },
  {
    ...shared,
    id: "rails.toe",
    title: "Toe of the rails",
    layouts: bothLayouts,
    evaluate: (scene) => read(scene, "rail.toe"),
    meaning: (value) =>
      `At the rear the rails stand ${sizeOf(value)} ${value > 0 ? "wider" : "narrower"} than at the front: they bind, they do not steer.`,
  },
  {
    ...shared,
    id: "rails.belly",
    title: "Belly of the rails",
    layouts: bothLayouts,
    evaluate: (scene) => read(scene, "rail.belly"),
    meaning: (value) =>
      `In the middle the rails stand ${sizeOf(value)} ${value > 0 ? "wider" : "narrower"} than at their ends.`,
  },
  {
    ...shared,
    id: "frame.stagger",
    title: "Stagger of the rails",
    layouts: gantry,
    evaluate: (scene) => read(scene, "frame.stagger"),
    meaning: (value) =>
      `The right rail lies ${sizeOf(value)} further to the ${value > 0 ? "rear" : "front"}: it moves the stops, not the path.`,
  },
];
