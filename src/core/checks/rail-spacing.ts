import { bump } from "../machine/joint.ts";
import { read } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, runZero } from "./check.ts";
import { words } from "./words/rail-spacing.ts";

/** toe·(v − ½) + belly·bump(v) + zero, v the fraction of the travel along Y. */
export const railSpacing: GeometricCheck = {
  id: "rail-spacing",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["feeler", "tape", "rule", "calipers"],
  roles: [],
  lastingError: "cancels",
  atTip: false,
  options: [],
  stations: ({ machine }) => {
    const { Ly, railLeft, railSpan, zr } = machine.dimensions;
    return (
      [
        [0, "front"],
        [0.5, "middle"],
        [1, "rear"],
      ] as const
    ).map(([v, key]) => ({ key, words: `between the rails, ${key}`, at: [railLeft + railSpan / 2, v * Ly, zr] }));
  },
  stationAt: (_, [x, y, z]) => ({ key: `y=${y}`, words: `between the rails at Y ${y}`, at: [x, y, z] }),
  unknowns: () => [runZero],
  predict: (scene, station, _, unknown) => {
    const v = station.at[1] / scene.machine.dimensions.Ly;
    return weightedSum([v - 0.5, bump(v), 1], [read(scene, "rail.toe"), read(scene, "rail.belly"), unknown("zero")]);
  },
};
