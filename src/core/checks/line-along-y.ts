import { poseAt } from "../machine/joint.ts";
import { gridCrossing, tip } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, runZero, type Station } from "./check.ts";
import { words } from "./words/line-along-y.ts";

const FRACTIONS = [0.04, 0.27, 0.5, 0.73, 0.96];

/** T.x − G(x, y).x + zero, the pointer 1 mm over a printed line that runs along Y. */
export const lineAlongY: GeometricCheck = {
  id: "line-along-y",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  bothWays: true,
  instruments: ["line by eye", "rule"],
  roles: [],
  lastingError: "cancels",
  atTip: true,
  options: [],
  stations: ({ machine }) => {
    const { Lx, Ly } = machine.dimensions;
    return FRACTIONS.map((f, i) => lineStation(`${i + 1}`, Lx / 2, f * Ly));
  },
  stationAt: (_, [x, y]) => lineStation(`x=${x} y=${y}`, x, y),
  unknowns: () => [runZero],
  predict: (scene, { at: [x, y] }, _, unknown) =>
    weightedSum([1, -1, 1], [tip(scene, poseAt(x, y, 1)).x, gridCrossing(scene, x, y).x, unknown("zero")]),
  touches: (_, { at: [x, y] }) => [{ surface: "grid line along y", x, y, weight: -1 }],
};

function lineStation(key: string, x: number, y: number): Station {
  return { key, words: `pointer over the line, ${Math.round(y)} from the front`, at: [x, y, 1] };
}
