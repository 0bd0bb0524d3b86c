import { poseAt } from "../machine/joint.ts";
import { gridCrossing, tip } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, runZero, type Station } from "./check.ts";
import { words } from "./words/line-along-x.ts";

const FRACTIONS = [0.04, 0.27, 0.5, 0.73, 0.96];

/** T.y − G(x, y).y + zero, the pointer 1 mm over a printed line that runs along X. */
export const lineAlongX: GeometricCheck = {
  id: "line-along-x",
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
    return FRACTIONS.map((f, i) => lineStation(`${i + 1}`, f * Lx, Ly / 2));
  },
  stationAt: (_, [x, y]) => lineStation(`x=${x} y=${y}`, x, y),
  unknowns: () => [runZero],
  predict: (scene, { at: [x, y] }, _, unknown) =>
    weightedSum([1, -1, 1], [tip(scene, poseAt(x, y, 1)).y, gridCrossing(scene, x, y).y, unknown("zero")]),
  touches: (_, { at: [x, y] }) => [{ surface: "grid line along x", x, y, weight: -1 }],
};

function lineStation(key: string, x: number, y: number): Station {
  return { key, words: `pointer over the line, ${Math.round(x)} from the left`, at: [x, y, 1] };
}
