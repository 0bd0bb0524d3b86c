import { poseAt } from "../machine/joint.ts";
import { bedHeight, placeOnMember } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, type Station } from "./check.ts";
import { words } from "./words/gap-under-beam.ts";

/**
 * Gap left over the block: P.z − B(P.x, P.y) − block, P = M(beam, (x, y, zu)) the beam's underside over the place; the
 * Y axis stands at y + ty, so that the beam's centre is over it. `carriage` is only a condition: the beam is stiff here.
 */
export const gapUnderBeam: GeometricCheck = {
  id: "gap-under-beam",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["feeler", "calipers"],
  roles: ["block"],
  lastingError: "cancels",
  atTip: false,
  options: [],
  stations: ({ machine }) => {
    const { Lx, Ly, ty } = machine.dimensions;
    const rows = [
      // The Y axis has to stand at y + ty, and the block on the bed.
      ["front", Math.max(0.15 * Ly, -ty + 5)],
      ["rear", Math.min(0.9 * Ly, Ly - 5, Ly - ty - 5)],
    ] as const;
    const columns = [
      ["left", 0.1],
      ["middle", 0.5],
      ["right", 0.9],
    ] as const;
    return rows.flatMap(([row, y]) =>
      columns.map(([column, f]) => gapStation(`${row} ${column}`, `block at the ${row}, ${column}`, f * Lx, y)),
    );
  },
  stationAt: (_, [x, y]) => gapStation(`x=${x} y=${y}`, `block at X ${x}, Y ${y}`, x, y),
  unknowns: ({ machine }) => [
    {
      key: "block",
      scope: "run",
      words: "height of the block",
      mean: machine.dimensions.zu - 1,
      sd: 10,
      role: "block",
    },
  ],
  predict: (scene, { at: [x, y] }, _, unknown) => {
    const { ty, zu } = scene.machine.dimensions;
    const under = placeOnMember(scene, "beam", [x, y, zu], poseAt(x, y + ty, 0));
    return weightedSum([1, -1, -1], [under.z, bedHeight(scene, under.x, under.y), unknown("block")]);
  },
  touches: (_, { at: [x, y] }) => [{ surface: "bed", x, y, weight: -1 }],
};

function gapStation(key: string, words: string, x: number, y: number): Station {
  return { key, words, at: [x, y, 0] };
}
