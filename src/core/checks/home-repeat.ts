import { poseAt } from "../machine/joint.ts";
import { tip } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, runZero } from "./check.ts";
import { words } from "./words/home-repeat.ts";

/** Where a dial finds the tool after each homing: T.y at 95 % of X, where a racked beam shows most, + zero. */
export const homeRepeat: GeometricCheck = {
  id: "home-repeat",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["dial", "test indicator"],
  roles: [],
  lastingError: "cancels",
  atTip: true,
  homedAfresh: true,
  options: [],
  stations: ({ machine }) => {
    const { Lx, Ly } = machine.dimensions;
    return [1, 2, 3, 4, 5].map((n) => ({
      key: `homing ${n}`,
      words: `dial on the nose after homing ${n}`,
      at: [0.95 * Lx, 0.1 * Ly, 10],
    }));
  },
  unknowns: () => [runZero],
  predict: (scene, { at: [x, y, z] }, _, unknown) =>
    weightedSum([1, 1], [tip(scene, poseAt(x, y, z)).y, unknown("zero")], -y),
};
