import { poseAt } from "../machine/joint.ts";
import { gridCrossing, placeOnMember } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, runZero, type Station } from "./check.ts";
import { words } from "./words/beam-to-line.ts";

/**
 * M(beam, lower edge of the front face over the line).y − G(x, y).y + zero; the Y axis is commanded to y + ty − yf, so
 * that the face stands over the line.
 */
export const beamToLine: GeometricCheck = {
  id: "beam-to-line",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  bothWays: true,
  instruments: ["line by eye", "rule"],
  roles: [],
  lastingError: "cancels",
  atTip: false,
  options: [],
  stations: ({ machine }) => {
    const { Lx, Ly } = machine.dimensions;
    return (
      [
        [0.05, "left"],
        [0.5, "middle"],
        [0.95, "right"],
      ] as const
    ).map(([f, key]) => lineStation(key, `${key} end of the line`, f * Lx, Ly / 2));
  },
  stationAt: (_, [x, y]) => lineStation(`x=${x} y=${y}`, `beam over the line at X ${x}`, x, y),
  unknowns: () => [runZero],
  predict: (scene, { at: [x, y] }, _, unknown) => {
    const { ty, yf, zu } = scene.machine.dimensions;
    const pose = poseAt(x, y + ty - yf, 0);
    const edge = placeOnMember(scene, "beam", [x, y, zu], pose);
    return weightedSum([1, -1, 1], [edge.y, gridCrossing(scene, x, y).y, unknown("zero")]);
  },
  touches: (_, { at: [x, y] }) => [{ surface: "grid line along x", x, y, weight: -1 }],
};

function lineStation(key: string, words: string, x: number, y: number): Station {
  return { key, words, at: [x, y, 0] };
}
