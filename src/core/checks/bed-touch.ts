import { poseAt } from "../machine/joint.ts";
import { bedHeight, type Scene, tip } from "../machine/kinematics.ts";
import { type Dual, scale, subtract, weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, runZero, type Station } from "./check.ts";
import { words } from "./words/bed-touch.ts";

const FRACTIONS = [0.05, 0.275, 0.5, 0.725, 0.95];

/** The commanded z at which T.z = B(T.x, T.y), coming down, + zero. */
export const bedTouch: GeometricCheck = {
  id: "bed-touch",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["touch plate", "paper", "feeler"],
  roles: [],
  lastingError: "cancels",
  atTip: true,
  options: [],
  stations: ({ machine }) => {
    const { Lx, Ly } = machine.dimensions;
    return FRACTIONS.flatMap((fy, row) =>
      FRACTIONS.map((fx, column) => touchStation(`row ${row + 1} column ${column + 1}`, fx * Lx, fy * Ly)),
    );
  },
  stationAt: (_, [x, y]) => touchStation(`x=${x} y=${y}`, x, y),
  unknowns: () => [runZero],
  predict: (scene, { at: [x, y] }, _, unknown) => weightedSum([1, 1], [touchHeight(scene, x, y), unknown("zero")]),
  touches: (_, { at: [x, y] }) => [{ surface: "bed", x, y, weight: 1 }],
};

/**
 * Solves F(z) = T.z(z) − B(T.x(z), T.y(z)) = 0 by Newton from z = 0; dz/dθ = −(∂F/∂θ)/(∂F/∂z). F is very nearly linear
 * in z, so a central difference over 2 mm is its slope and three steps reach rounding.
 */
export function touchHeight(scene: Scene, x: number, y: number): Dual {
  const bare: Scene = { ...scene, size: 0 };
  let z = 0;
  let slope = 1;
  for (let step = 0; step < 3; step++) {
    slope = (clearance(bare, x, y, z + 1).value - clearance(bare, x, y, z - 1).value) / 2;
    z -= clearance(bare, x, y, z).value / slope;
  }
  const left = clearance(scene, x, y, z);
  return { value: z, gradient: scale(-1 / slope, left).gradient };
}

function clearance(scene: Scene, x: number, y: number, z: number): Dual {
  const place = tip(scene, poseAt(x, y, z));
  return subtract(place.z, bedHeight(scene, place.x, place.y));
}

function touchStation(key: string, x: number, y: number): Station {
  return { key, words: `tip down on the bed at X ${Math.round(x)}, Y ${Math.round(y)}`, at: [x, y, 0] };
}
