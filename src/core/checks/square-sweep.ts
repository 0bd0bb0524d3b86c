import { poseAt } from "../machine/joint.ts";
import { tip } from "../machine/kinematics.ts";
import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, optionOf, type Setup, type Station } from "./check.ts";
import { squareUnknown } from "./square.ts";
import { words } from "./words/square-sweep.ts";

const FRACTIONS = [0.1, 0.4, 0.7, 1];

/**
 * Stock: σ·(T.y − y − yaw·s − posY). Blade: σ·(T.x − x + (yaw + q·square/100)·s − posX). s = coordinate − the corner's,
 * signed, along the leg; yaw of the laid square counter-clockwise, mm/m. Corner at the front left, stem to the rear on
 * the stock and to the right on the blade: σ = 1, q = 1. Turned over like a page, the corner lies front right, the stock
 * to its left and the stem on the blade points left: q = −1 and σ = −1 on the blade.
 */
export const squareSweep: GeometricCheck = {
  id: "square-sweep",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["dial", "test indicator"],
  roles: ["square"],
  lastingError: "cancels",
  atTip: true,
  options: [
    {
      key: "lies",
      question: "How does the square lie?",
      answers: ["corner front left", "turned over, corner front right"],
      usual: "corner front left",
    },
  ],
  stations: (setup) => {
    const { Lx, Ly } = setup.machine.dimensions;
    const leg = 0.4 * Math.min(Lx, Ly);
    const [cx, cy] = corner(setup);
    const side = isTurned(setup) ? -1 : 1;
    const stock = FRACTIONS.map(
      (f, i): Station => ({
        key: `stock ${i + 1}`,
        words: `along the stock, ${Math.round(f * leg)} from the corner`,
        at: [cx + side * f * leg, cy, 10],
        figures: { s: side * f * leg, blade: 0 },
      }),
    );
    const blade = FRACTIONS.map(
      (f, i): Station => ({
        key: `blade ${i + 1}`,
        words: `along the blade, ${Math.round(f * leg)} from the corner`,
        at: [cx, cy + f * leg, 10],
        figures: { s: f * leg, blade: 1 },
      }),
    );
    return [...stock, ...blade];
  },
  unknowns: (_, station) => [
    { key: "yaw", scope: "run", words: "how the square was laid", mean: 0, sd: 3 },
    isBlade(station)
      ? { key: "position x", scope: "run", words: "where the blade was laid", mean: 0, sd: 10 }
      : { key: "position y", scope: "run", words: "where the stock was laid", mean: 0, sd: 10 },
    ...(isBlade(station) ? [squareUnknown] : []),
  ],
  predict: (scene, station, setup, unknown) => {
    const [x, y, z] = station.at;
    const s = station.figures?.s as number;
    const place = tip(scene, poseAt(x, y, z));
    if (!isBlade(station)) {
      return weightedSum([1, -1e-3 * s, -1], [place.y, unknown("yaw"), unknown("position y")], -y);
    }
    const q = isTurned(setup) ? -1 : 1;
    const sigma = q;
    return weightedSum(
      [sigma, 1e-3 * sigma * s, (sigma * q * s) / 100, -sigma],
      [place.x, unknown("yaw"), unknown("square"), unknown("position x")],
      -sigma * x,
    );
  },
  // What stands out of an edge goes towards the stem, whichever way it is turned; the blade is kept apart from the stock.
  touches: (_, station) => [
    { surface: "edge", x: Math.abs(station.figures?.s as number), y: isBlade(station) ? 1000 : 0, weight: 1 },
  ],
};

function isBlade(station: Station): boolean {
  return station.figures?.blade === 1;
}

function isTurned(setup: Setup): boolean {
  return optionOf(squareSweep, setup, "lies") !== "corner front left";
}

function corner(setup: Setup): readonly [number, number] {
  const { Lx, Ly } = setup.machine.dimensions;
  const off = 0.2 * Math.min(Lx, Ly);
  return [Lx / 2 + (isTurned(setup) ? off : -off), Ly / 2 - off];
}
