import { bump, poseAt } from "../machine/joint.ts";
import { tip } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, optionOf, runZero, type Setup, type Station } from "./check.ts";
import { stemPoints } from "./square.ts";
import { words } from "./words/edge-traverse.ts";

const FRACTIONS = [0.1, 0.23, 0.37, 0.5, 0.63, 0.77, 0.9];
const ALONG_X = "along the beam";

/**
 * σ·[T across the edge − zero − slope·s] + bow·bump(s/L): a straightedge laid along an axis and read across, in plan or
 * upright. s from the first station, L from the first to the last; σ = +1 when the stem points to the rear, to the
 * right or up. bow > 0: the touched edge bulges outwards, whichever way it stands.
 */
export const edgeTraverse: GeometricCheck = {
  id: "edge-traverse",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["dial", "test indicator"],
  roles: ["straightedge"],
  lastingError: "cancels",
  atTip: true,
  options: [
    { key: "along", question: "Along what does the edge lie?", answers: [ALONG_X, "front to rear"], usual: ALONG_X },
    { key: "across", question: "How is it read?", answers: ["in plan", "upright"], usual: "in plan" },
    // In plan the stem looks where the tool goes in plus; for height it usually stands on the edge.
    stemPoints(["rear, right or up", "front, left or down"], (_, given) =>
      given?.across === "upright" ? "front, left or down" : "rear, right or up",
    ),
  ],
  stations: (setup) => {
    const { Lx, Ly } = setup.machine.dimensions;
    const alongX = liesAlongX(setup);
    const length = alongX ? Lx : Ly;
    return FRACTIONS.map(
      (f, i): Station => ({
        key: `${i + 1}`,
        words: `${Math.round(f * length)} along the edge`,
        at: alongX ? [f * Lx, Ly / 2, 10] : [Lx / 2, f * Ly, 10],
      }),
    );
  },
  unknowns: () => [
    runZero,
    { key: "slope", scope: "run", words: "how the edge was laid", mean: 0, sd: 3 },
    { key: "bow", scope: "object", role: "straightedge", words: "the straightedge's own bow", mean: 0, sd: 0.1 },
  ],
  predict: (scene, station, setup, unknown) => {
    const [x, y, z] = station.at;
    const place = tip(scene, poseAt(x, y, z));
    const upright = optionOf(edgeTraverse, setup, "across") === "upright";
    const alongX = liesAlongX(setup);
    const across = upright ? place.z : alongX ? place.y : place.x;
    const nominal = upright ? z : alongX ? y : x;
    const { s, length } = distanceAlong(station, setup);
    const sigma = stemSign(setup);
    return weightedSum(
      [sigma, -sigma, -1e-3 * sigma * s, bump(s / length)],
      [across, unknown("zero"), unknown("slope"), unknown("bow")],
      -sigma * nominal,
    );
  },
  // What stands out of the edge goes towards the stem, whichever way it is turned.
  touches: (setup, station) => [{ surface: "edge", x: distanceAlong(station, setup).s, y: 0, weight: 1 }],
};

function liesAlongX(setup: Setup): boolean {
  return optionOf(edgeTraverse, setup, "along") === ALONG_X;
}

function stemSign(setup: Setup): 1 | -1 {
  return optionOf(edgeTraverse, setup, "stem") === "rear, right or up" ? 1 : -1;
}

function distanceAlong(station: Station, setup: Setup): { s: number; length: number } {
  const { Lx, Ly } = setup.machine.dimensions;
  const length = liesAlongX(setup) ? Lx : Ly;
  const place = liesAlongX(setup) ? station.at[0] : station.at[1];
  const first = FRACTIONS[0] * length;
  return { s: place - first, length: FRACTIONS[FRACTIONS.length - 1] * length - first };
}
