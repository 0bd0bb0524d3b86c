import { gridCrossing, type Scene } from "../machine/kinematics.ts";
import type { Machine } from "../machine/machine.ts";
import { constant, type DualVector, distance, scale } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, longestReading, type Station } from "./check.ts";
import { words } from "./words/grid-diagonals.ts";

/** Length between two crossings of the print − what is printed. */
export const gridDiagonals: GeometricCheck = {
  id: "grid-diagonals",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["rule", "tape"],
  roles: [],
  lastingError: "enters",
  atTip: false,
  options: [],
  stations: (setup) => sixLengths(...largestRectangle(setup.machine, longestReading(setup) ?? 1000)),
  unknowns: () => [],
  predict: (scene, station) => {
    const to = station.to as NonNullable<Station["to"]>;
    const length = distance(crossing(scene, station.at), crossing(scene, to));
    return scale(1, length, -(station.nominal as number));
  },
  touches: (_, station) => [{ surface: "grid length", x: lengthKey(station), y: 0, weight: Math.SQRT2 }],
};

/** The six lengths of a rectangle: two along X, two along Y, both diagonals. */
export function sixLengths(
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  z = 0,
): readonly (Station & { readonly nominal: number })[] {
  const a = Math.abs(x1 - x0);
  const b = Math.abs(y1 - y0);
  const corners = { fl: [x0, y0, z], fr: [x1, y0, z], rl: [x0, y1, z], rr: [x1, y1, z] } as const;
  const length = (
    key: string,
    words: string,
    from: keyof typeof corners,
    to: keyof typeof corners,
    nominal: number,
  ) => ({
    key,
    words,
    at: corners[from],
    to: corners[to],
    nominal,
  });
  return [
    length("front", "front side, along X", "fl", "fr", a),
    length("rear", "rear side, along X", "rl", "rr", a),
    length("left", "left side, along Y", "fl", "rl", b),
    length("right", "right side, along Y", "fr", "rr", b),
    length("rising", "diagonal from front left to rear right", "fl", "rr", Math.hypot(a, b)),
    length("falling", "diagonal from front right to rear left", "fr", "rl", Math.hypot(a, b)),
  ];
}

/** As large as the travel, the print's pitch and the rule allow. */
function largestRectangle(machine: Machine, longestMm: number): [number, number, number, number] {
  const { Lx, Ly, details } = machine.dimensions;
  const pitch = details.gridPitchMm ?? 10;
  const down = (value: number) => Math.max(pitch, Math.floor(value / pitch) * pitch);
  const shrink = Math.min(1, (0.98 * longestMm) / Math.hypot(Lx, Ly));
  const a = down(Lx * shrink);
  const b = down(Ly * shrink);
  const x0 = Math.floor((Lx - a) / 2 / pitch) * pitch;
  const y0 = Math.floor((Ly - b) / 2 / pitch) * pitch;
  return [x0, y0, x0 + a, y0 + b];
}

function crossing(scene: Scene, place: readonly [number, number, number]): DualVector {
  return { ...gridCrossing(scene, place[0], place[1]), z: constant(0, scene.size) };
}

// Each of the six lengths keeps a shape residual of its own; the places on this "surface" are told apart by number.
function lengthKey(station: Station): number {
  return 1000 * ["front", "rear", "left", "right", "rising", "falling"].indexOf(station.key);
}
