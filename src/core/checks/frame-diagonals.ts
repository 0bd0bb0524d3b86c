import { read } from "../machine/kinematics.ts";
import { constant, type DualVector, distance, scale, subtract } from "../numerics/dual.ts";
import type { GeometricCheck } from "./check.ts";
import { words } from "./words/frame-diagonals.ts";

/**
 * |FL − RR| − |FR − RL| between the outer ends of the rails. The rear ends stand outwards and the front ends inwards by
 * a quarter of the toe on each side; the stagger carries the right rail to the rear.
 */
export const frameDiagonals: GeometricCheck = {
  id: "frame-diagonals",
  kind: "geometric",
  words,
  layouts: ["moving-gantry"],
  quantity: "length",
  instruments: ["tape", "pinch rods", "rule"],
  roles: [],
  lastingError: "cancels",
  atTip: false,
  options: [],
  entries: ["front left to rear right", "front right to rear left"],
  stations: ({ machine }) => {
    const { xm, Ly } = machine.dimensions;
    return [{ key: "diagonals", words: "both diagonals of the frame", at: [xm, Ly / 2, machine.dimensions.zr] }];
  },
  unknowns: () => [],
  predict: (scene) => {
    const { xL, xR, Ly, details, zr } = scene.machine.dimensions;
    const toe = read(scene, "rail.toe");
    const stagger = read(scene, "frame.stagger");
    const front = details.packingPlaces.front * Ly;
    const rear = details.packingPlaces.rear * Ly;
    const end = (x: number, outwards: number, y: number, staggers: number): DualVector => ({
      x: scale(outwards / 4, toe, x),
      y: scale(staggers, stagger, y),
      z: constant(zr, scene.size),
    });
    const fl = end(xL, 1, front, 0);
    const rl = end(xL, -1, rear, 0);
    const fr = end(xR, -1, front, 1);
    const rr = end(xR, 1, rear, 1);
    return subtract(distance(fl, rr), distance(fr, rl));
  },
};
