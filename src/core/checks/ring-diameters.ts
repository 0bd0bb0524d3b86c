import type { Arrival } from "../machine/joint.ts";
import { poseAt } from "../machine/joint.ts";
import { type Scene, tip } from "../machine/kinematics.ts";
import { along, type DualVector, subtractVectors, weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, optionOf, type Setup } from "./check.ts";
import { comparedOption } from "./compared-option.ts";
import { words } from "./words/ring-diameters.ts";

const ANGLES = [15, 45, 75, 105, 135, 165];

/** Nearer to a quadrant than this the jaws bridge the step of play, degrees. */
export const QUADRANT_CLEARANCE = 10;

/**
 * (T(f) − T(f + 180°))·(cos f, sin f) − 2r − cutter for a disc, + cutter for a pocket. r: radius of the path; the
 * direction in which each point was passed decides on which side the play stood.
 */
export const ringDiameters: GeometricCheck = {
  id: "ring-diameters",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["calipers"],
  roles: ["cutter"],
  lastingError: "enters",
  atTip: true,
  options: [
    { key: "radiusMm", question: "Radius of the tool's path?", number: { unit: "mm", from: 10, to: 600 }, usual: 60 },
    { key: "cutterMm", question: "Diameter of the cutter?", number: { unit: "mm", from: 0.5, to: 40 }, usual: 6 },
    {
      key: "direction",
      question: "Which way round was it cut, seen from above?",
      answers: ["counter-clockwise", "clockwise"],
      usual: "counter-clockwise",
    },
    { key: "piece", question: "What was cut?", answers: ["disc", "pocket"], usual: "disc" },
    comparedOption,
  ],
  stations: (setup) => {
    const { Lx, Ly } = setup.machine.dimensions;
    if (2 * number(setup, "radiusMm") > Math.min(Lx, Ly)) return [];
    const nominal = 2 * number(setup, "radiusMm") + cutterSign(setup) * number(setup, "cutterMm");
    return ANGLES.map((f) => ({
      key: `${f}°`,
      words: `diameter at ${f}° from X towards Y`,
      at: [Lx / 2, Ly / 2, 0] as const,
      nominal,
      figures: { f },
    }));
  },
  unknowns: () => [{ key: "cutter", scope: "object", role: "cutter", words: "the cutter's size", mean: 0, sd: 0.2 }],
  predict: (scene, station, setup, unknown) => {
    const f = station.figures?.f as number;
    const r = number(setup, "radiusMm");
    const across = subtractVectors(passing(scene, station.at, setup, f), passing(scene, station.at, setup, f + 180));
    const c = Math.cos((f * Math.PI) / 180);
    const s = Math.sin((f * Math.PI) / 180);
    return weightedSum([1, cutterSign(setup)], [along(across, c, s, 0), unknown("cutter")], -2 * r);
  },
};

/** The tip as it passes the angle f on its way round. */
function passing(scene: Scene, [x, y, z]: readonly number[], setup: Setup, f: number): DualVector {
  const r = number(setup, "radiusMm");
  const turn = optionOf(ringDiameters, setup, "direction") === "clockwise" ? -1 : 1;
  const c = Math.cos((f * Math.PI) / 180);
  const s = Math.sin((f * Math.PI) / 180);
  const arrivedX = Math.sign(-turn * s) as Arrival;
  const arrivedY = Math.sign(turn * c) as Arrival;
  return tip(scene, poseAt(x + r * c, y + r * s, z, { arrivedX, arrivedY }));
}

function cutterSign(setup: Setup): 1 | -1 {
  return optionOf(ringDiameters, setup, "piece") === "pocket" ? 1 : -1;
}

function number(setup: Setup, key: string): number {
  return Number(optionOf(ringDiameters, setup, key));
}
