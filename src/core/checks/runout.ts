import { read } from "../machine/kinematics.ts";
import { bothLayouts, type GeometricCheck } from "./check.ts";
import { words } from "./words/runout.ts";

/** Total indicated runout of a ground pin at the collet, four seatings. */
export const runout: GeometricCheck = {
  id: "runout",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["test indicator", "dial"],
  roles: [],
  lastingError: "cancels",
  atTip: false,
  options: [],
  stations: ({ machine }) => {
    const { Lx, Ly, Lz } = machine.dimensions;
    return [1, 2, 3, 4].map((n) => ({
      key: `seating ${n}`,
      words: `pin next to the collet, seating ${n}`,
      at: [Lx / 2, Ly / 2, Math.min(20, Lz)],
    }));
  },
  unknowns: () => [],
  predict: (scene) => read(scene, "spindle.runout"),
};
