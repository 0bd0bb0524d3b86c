import { weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, longestReading, type Setup, type Station } from "./check.ts";
import { comparedOption } from "./compared-option.ts";
import { edgeLengths, holeSize, lengthBetween } from "./hole-rectangle.ts";
import { words } from "./words/hole-field.ts";

// Rows from the front, columns from the left. Three rows and three columns of two pitches, six crossing diagonals of one cell.
const LENGTHS = [
  [0, 0, 2, 0],
  [0, 1, 2, 1],
  [0, 2, 2, 2],
  [0, 0, 0, 2],
  [1, 0, 1, 2],
  [2, 0, 2, 2],
  [0, 0, 1, 1],
  [1, 0, 0, 1],
  [1, 1, 2, 2],
  [2, 1, 1, 2],
  [1, 0, 2, 1],
  [1, 1, 0, 2],
] as const;

/** Lengths between near edges over a field of three by three holes: distance of centres − nominal − hole. */
export const holeField: GeometricCheck = {
  id: "hole-field",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["calipers"],
  roles: [],
  lastingError: "enters",
  atTip: true,
  options: [comparedOption],
  stations: (setup) => {
    const { Lx, Ly } = setup.machine.dimensions;
    const pitch = pitchFor(setup);
    const at = (column: number, row: number) => [Lx / 2 + (column - 1) * pitch, Ly / 2 + (row - 1) * pitch, 0] as const;
    const lengths = LENGTHS.map(([c0, r0, c1, r1]): Station & { nominal: number } => ({
      key: `row ${r0 + 1} column ${c0 + 1} to row ${r1 + 1} column ${c1 + 1}`,
      words: `hole in row ${r0 + 1}, column ${c0 + 1} to hole in row ${r1 + 1}, column ${c1 + 1}`,
      at: at(c0, r0),
      to: at(c1, r1),
      nominal: pitch * Math.hypot(c1 - c0, r1 - r0),
    }));
    return edgeLengths(lengths, "near", -1).map((station, i) => ({ ...station, key: lengths[i].key }));
  },
  unknowns: () => [holeSize],
  predict: (scene, station, _, unknown) => weightedSum([1, -1], [lengthBetween(scene, station), unknown("hole")]),
};

/** 140 mm or less: two pitches must fit the travel and the calipers. */
function pitchFor(setup: Setup): number {
  const { Lx, Ly } = setup.machine.dimensions;
  const longest = 0.95 * (longestReading(setup) ?? 300);
  return Math.floor(Math.min(140, 0.45 * Lx, 0.45 * Ly, longest / 2) / 5) * 5;
}
