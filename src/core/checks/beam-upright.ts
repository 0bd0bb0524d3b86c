import { poseAt } from "../machine/joint.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, optionOf } from "./check.ts";
import { leanOfMember } from "./lean.ts";
import { squareStands, squareUnknown } from "./square.ts";
import { words } from "./words/beam-upright.ts";

/**
 * top gap − bottom gap = −q·[lean·H + q·square·H/100] between the beam's front face and a square on the bed, the two
 * places H apart. A square that stands in front of the face has q = −1, so plus is a lean to the rear.
 */
export const beamUpright: GeometricCheck = {
  id: "beam-upright",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["feeler"],
  roles: ["square"],
  lastingError: "cancels",
  atTip: false,
  options: [
    squareStands("Which side of the face does the square stand on?", ["in front", "behind"], "in front"),
    {
      key: "heightMm",
      question: "How far is the upper place above the lower one?",
      number: { unit: "mm", from: 10, to: 200 },
      usual: 40,
    },
  ],
  entries: ["top gap", "bottom gap"],
  oneTouches: true,
  stations: ({ machine }) => {
    const { Lx, Ly } = machine.dimensions;
    return (
      [
        [0.1, "left"],
        [0.5, "middle"],
        [0.9, "right"],
      ] as const
    ).map(([f, key]) => ({ key, words: `face of the beam, ${key}`, at: [f * Lx, Ly / 2, 0] }));
  },
  stationAt: (_, [x, y]) => ({ key: `x=${x} y=${y}`, words: `face of the beam at X ${x}`, at: [x, y, 0] }),
  unknowns: () => [squareUnknown],
  predict: (scene, { at: [x, y] }, setup, unknown) => {
    const { ty, yf, zu } = scene.machine.dimensions;
    const H = Number(optionOf(beamUpright, setup, "heightMm"));
    const q = optionOf(beamUpright, setup, "square") === "in front" ? -1 : 1;
    const lean = leanOfMember(scene, "beam", [x, y, zu + 5], H, "fore", poseAt(x, y + ty - yf, 0));
    return weightedSum([-q * H, -H / 100], [lean, unknown("square")]);
  },
};
