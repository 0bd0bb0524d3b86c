import { poseAt } from "../machine/joint.ts";
import { spindleAxis, tip } from "../machine/kinematics.ts";
import { divide, dot, subtractVectors } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, optionOf, type Station } from "./check.ts";
import { words } from "./words/pass-ridges.ts";

/**
 * a·(T2 − T1)/a.z: floor of the next pass − floor of this one where they meet, the next pass one stepover (0.6 of the
 * cutter's diameter) to the rear of passes along X, or to the right of passes along Y. a: the axis, up.
 */
export const passRidges: GeometricCheck = {
  id: "pass-ridges",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["dial", "test indicator"],
  roles: ["cutter"],
  lastingError: "cancels",
  atTip: true,
  options: [
    { key: "cutterMm", question: "Diameter of the cutter?", number: { unit: "mm", from: 6, to: 60 }, usual: 25 },
  ],
  stations: (setup) => {
    const { Lx, Ly } = setup.machine.dimensions;
    const s = 0.6 * Number(optionOf(passRidges, setup, "cutterMm"));
    return ([0.2, 0.5, 0.8] as const).flatMap((f, i) =>
      (["X", "Y"] as const).map((along): Station => {
        // Both passes have to lie within the travel.
        const x = Math.min(f * Lx, Lx - s);
        const y = Math.min(f * Ly, Ly - s);
        return {
          key: `place ${i + 1}, passes along ${along}`,
          words: `place ${i + 1}, passes along ${along}`,
          at: [x, y, 0],
          to: along === "X" ? [x, y + s, 0] : [x + s, y, 0],
        };
      }),
    );
  },
  unknowns: () => [],
  predict: (scene, station) => {
    const first = poseAt(...station.at);
    const axis = spindleAxis(scene, first);
    const next = tip(scene, poseAt(...(station.to as [number, number, number])));
    return divide(dot(axis, subtractVectors(next, tip(scene, first))), axis.z);
  },
};
