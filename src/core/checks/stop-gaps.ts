import { read } from "../machine/kinematics.ts";
import { homingYaw } from "../machine/machine.ts";
import { combine, scale, tangent, weightedSum } from "../numerics/dual.ts";
import type { GeometricCheck } from "./check.ts";
import { words } from "./words/stop-gaps.ts";

/**
 * right gap − left gap = W·tan(yaw at the front) − stagger + the stops' own difference; drives free, so each press has
 * a homing of its own. A machine that squares itself on its stops shows nothing of its yaw there.
 */
export const stopGaps: GeometricCheck = {
  id: "stop-gaps",
  kind: "geometric",
  words,
  layouts: ["moving-gantry"],
  quantity: "length",
  instruments: ["feeler"],
  roles: [],
  lastingError: "cancels",
  atTip: false,
  homedAfresh: true,
  options: [],
  // The formula and the logbook have the right gap first; whoever stands before the machine begins at the left.
  entries: ["right gap", "left gap"],
  readsSecondFirst: true,
  stations: ({ machine }) => {
    const { xm, ty, zr } = machine.dimensions;
    return ["first press", "second press", "third press"].map((key) => ({
      key,
      words: `gantry against the front stops, ${key}`,
      at: [xm, -ty, zr],
    }));
  },
  unknowns: () => [
    { key: "stops", scope: "run", words: "difference of the stops themselves", mean: 0, sd: 0.3, lasts: true },
  ],
  predict: (scene, _, __, unknown) => {
    const { W, details } = scene.machine.dimensions;
    if (details.squaresOnStops) return unknown("stops");
    const yaw = weightedSum(
      [1e-3, 1e-3, -0.5e-3],
      [read(scene, "gantry.rack"), read(scene, homingYaw), read(scene, "gantry.rack.change")],
    );
    const ends = scale(W, tangent(yaw));
    return combine(1, combine(1, ends, -1, read(scene, "frame.stagger")), 1, unknown("stops"));
  },
};
