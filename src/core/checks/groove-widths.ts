import { poseAt } from "../machine/joint.ts";
import { bedHeight, tip } from "../machine/kinematics.ts";
import { multiply, scale, tangent, weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, optionOf, type Setup, type Station } from "./check.ts";
import { words } from "./words/groove-widths.ts";

const FRACTIONS = [0.08, 0.22, 0.36, 0.5, 0.64, 0.78, 0.92];

/** Depth of the groove as programmed, mm. */
const DEPTH = 2;

/**
 * 2 tan((α + err)/2)·(B − T.z + depth zero + turned·wedge·(s − middle)) − nominal: the width of a groove cut with a
 * pointed cutter of the angle α into a strip that may be wedge-shaped (mm/m). turned = −1 when the strip lay end for end.
 */
export const grooveWidths: GeometricCheck = {
  id: "groove-widths",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["loupe", "calipers", "line by eye"],
  roles: ["cutter"],
  lastingError: "enters",
  atTip: true,
  options: [
    { key: "along", question: "Along what does the strip lie?", answers: ["X", "Y"], usual: "X" },
    { key: "angle", question: "Angle of the cutter?", number: { unit: "°", from: 10, to: 150 }, usual: 90 },
  ],
  stations: (setup) => {
    const { Lx, Ly } = setup.machine.dimensions;
    const alongX = optionOf(grooveWidths, setup, "along") !== "Y";
    const length = alongX ? Lx : Ly;
    return (["as laid", "turned end for end"] as const).flatMap((stand) =>
      FRACTIONS.map(
        (f, i): Station => ({
          key: `${stand} ${i + 1}`,
          words: `groove at ${Math.round(f * length)}, strip ${stand}`,
          at: alongX ? [f * Lx, Ly / 2, 10] : [Lx / 2, f * Ly, 10],
          nominal: 2 * Math.tan(halfAngle(setup)) * DEPTH,
          figures: { turned: stand === "as laid" ? 1 : -1, s: (f - 0.5) * length },
        }),
      ),
    );
  },
  unknowns: (_, station) => [
    {
      key: station.figures?.turned === 1 ? "depth zero" : "depth zero, turned",
      scope: "run",
      words: "where the depth was touched off",
      mean: 0,
      sd: 0.5,
    },
    { key: "wedge", scope: "run", words: "wedge of the strip", mean: 0, sd: 0.5 },
    { key: "angle", scope: "object", role: "cutter", words: "the cutter's angle", mean: 0, sd: 0.5 },
  ],
  predict: (scene, station, setup, unknown) => {
    const [x, y, z] = station.at;
    const { turned, s } = station.figures as { turned: number; s: number };
    const place = tip(scene, poseAt(x, y, z));
    const zero = unknown(turned === 1 ? "depth zero" : "depth zero, turned");
    const depth = weightedSum(
      [1, -1, 1, 1e-3 * turned * s],
      [bedHeight(scene, place.x, place.y), place.z, zero, unknown("wedge")],
      z + DEPTH,
    );
    const half = halfAngle(setup);
    const slope = tangent(scale(Math.PI / 360, unknown("angle"), half));
    return scale(2, multiply(slope, depth), -2 * Math.tan(half) * DEPTH);
  },
  touches: (setup, { at: [x, y] }) => [{ surface: "bed", x, y, weight: 2 * Math.tan(halfAngle(setup)) }],
};

function halfAngle(setup: Setup): number {
  return (Number(optionOf(grooveWidths, setup, "angle")) * Math.PI) / 360;
}
