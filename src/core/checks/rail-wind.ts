import { bump } from "../machine/joint.ts";
import { read } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck } from "./check.ts";
import { words } from "./words/rail-wind.ts";

/** (hR − hL)/W in mm/m + zero: a bar across both rails at the fraction v. W: distance of the rails that carry along Y. */
export const railWind: GeometricCheck = {
  id: "rail-wind",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "slope",
  instruments: ["level", "winding sticks"],
  roles: [],
  lastingError: "cancels",
  atTip: false,
  options: [],
  stations: ({ machine }) => {
    const { Ly, railLeft, railSpan, zr } = machine.dimensions;
    return (
      [
        [0, "front"],
        [0.25, "front quarter"],
        [0.5, "middle"],
        [0.75, "rear quarter"],
        [1, "rear"],
      ] as const
    ).map(([v, key]) => ({ key, words: `bar across the rails, ${key}`, at: [railLeft + railSpan / 2, v * Ly, zr] }));
  },
  stationAt: (_, [x, y, z]) => ({ key: `y=${y}`, words: `bar across the rails at Y ${y}`, at: [x, y, z] }),
  unknowns: () => [
    { key: "roll", scope: "run", words: "the machine's own roll under the level", mean: 0, sd: 10, lasts: true },
  ],
  predict: (scene, station, _, unknown) => {
    const { Ly, railSpan } = scene.machine.dimensions;
    const v = station.at[1] / Ly;
    const perMetre = 1000 / railSpan;
    const factors = [1 - v, v, bump(v)];
    const right = ["rail.right.front", "rail.right.rear", "rail.right.crown"].map((id) => read(scene, id));
    const left = ["rail.left.front", "rail.left.rear", "rail.left.crown"].map((id) => read(scene, id));
    return weightedSum(
      [...factors.map((f) => perMetre * f), ...factors.map((f) => -perMetre * f), 1],
      [...right, ...left, unknown("roll")],
    );
  },
  // Both rails have a shape of their own under the bar.
  touches: ({ machine }, station) => [
    { surface: "rails", x: 0, y: station.at[1], weight: (Math.SQRT2 * 1000) / machine.dimensions.railSpan },
  ],
};
