import { poseAt } from "../machine/joint.ts";
import { bedDirections, tip } from "../machine/kinematics.ts";
import { dot, subtractVectors, weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, optionOf, runZero, type Setup, type Station } from "./check.ts";
import { squareStands, squareUnknown, stemPoints } from "./square.ts";
import { words } from "./words/upright-sweep.ts";

/**
 * σ·[(T(z) − T(0))·e + q·square·z/100] + zero, always upwards. e: the bed's tangent to the right ("side") or to the
 * rear ("fore"); σ = +1 when the stem points that way; q = +1 when the square's body lies on that side of the edge.
 */
export const uprightSweep: GeometricCheck = {
  id: "upright-sweep",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["test indicator", "dial"],
  roles: ["square"],
  lastingError: "cancels",
  atTip: true,
  options: [
    { key: "towards", question: "Which lean is looked at?", answers: ["side", "fore"], usual: "side" },
    stemPoints(["right or rear", "left or front"], "right or rear"),
    squareStands(
      "On which side of the edge is the square's body?",
      ["right or rear", "left or front"],
      "right or rear",
    ),
  ],
  stations: ({ machine }) => {
    const { Lx, Ly, Lz } = machine.dimensions;
    return [0, 1, 2, 3, 4].map((i) => sweepStation(`${i + 1}`, Lx / 2, Ly / 2, (i / 4) * 0.85 * Lz));
  },
  stationAt: (_, [x, y, z]) => sweepStation(`x=${x} y=${y} z=${z}`, x, y, z),
  unknowns: () => [squareUnknown, runZero],
  predict: (scene, { at: [x, y, z] }, setup, unknown) => {
    const sigma = stemSign(setup);
    const q = optionOf(uprightSweep, setup, "square") === "right or rear" ? 1 : -1;
    const foot = tip(scene, poseAt(x, y, 0, { arrivedZ: 1 }));
    const raised = tip(scene, poseAt(x, y, z, { arrivedZ: 1 }));
    const { alongX, alongY } = bedDirections(scene, foot.x, foot.y);
    const e = optionOf(uprightSweep, setup, "towards") === "fore" ? alongY : alongX;
    return weightedSum(
      [sigma, (sigma * q * z) / 100, 1],
      [dot(subtractVectors(raised, foot), e), unknown("square"), unknown("zero")],
    );
  },
  // What stands out of the edge goes towards the stem, whichever way it is turned.
  touches: (_, { at: [, , z] }) => [{ surface: "edge", x: z, y: 0, weight: 1 }],
};

function stemSign(setup: Setup): 1 | -1 {
  return optionOf(uprightSweep, setup, "stem") === "right or rear" ? 1 : -1;
}

function sweepStation(key: string, x: number, y: number, z: number): Station {
  return { key, words: `raised by ${Math.round(z)}`, at: [x, y, z] };
}
