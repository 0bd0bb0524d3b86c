import { type Machine, nominalState } from "../machine/machine.ts";
import { chooseExaggeration, displacementsAt, type Exaggeration, exaggerated } from "./exaggeration.ts";
import { type Part, type PartName, type Place, partsOfMachine } from "./machine-parts.ts";
import { sheetPose } from "./machine-sheet.ts";

/** A part as a solid: the same ring of places again and again along it, first and last closed by a face. mm. */
export interface Solid {
  readonly name: PartName;
  readonly rings: readonly (readonly Place[])[];
  /** Round about its axis: lines along it are no edges. */
  readonly round: boolean;
}

/** The machine in space, as it should be and as it is estimated, exaggerated. */
export interface SolidMachine {
  readonly nominal: readonly Solid[];
  /** Null where nothing has been measured. */
  readonly estimate: readonly Solid[] | null;
  readonly exaggeration: Exaggeration;
  /** Corners of the travel, at the bed and at the upper end. */
  readonly travel: readonly [low: Place, high: Place];
}

/** How often a part that bends is cut across. */
const CUTS = 12;
const CORNERS_OF_A_CIRCLE = 20;

/** @param state the estimate, mm and mm/m by parameter; null: the machine as it should be */
export function solidMachine(machine: Machine, state: Float64Array | null): SolidMachine {
  const pose = sheetPose(machine);
  const parts = partsOfMachine(machine.dimensions, pose);
  const displacement = displacementsAt(machine, state ?? nominalState(machine), pose);
  const exaggeration = chooseExaggeration(parts, displacement, ["plan", "front", "right"]);
  const nominal = parts.map(solidOf);
  const moved = (solid: Solid, { carriedBy }: Part): Solid => ({
    ...solid,
    rings: solid.rings.map((ring) =>
      ring.map((place) => exaggerated(place, displacement(carriedBy, place), exaggeration.factor)),
    ),
  });
  const { Lx, Ly, Lz } = machine.dimensions;
  return {
    nominal,
    estimate: state && nominal.map((solid, i) => moved(solid, parts[i])),
    exaggeration,
    travel: [
      [0, 0, 0],
      [Lx, Ly, Lz],
    ],
  };
}

function solidOf(part: Part): Solid {
  const { name, shape, low, high, profile, bends } = part;
  if (shape === "cylinder") return { name, rings: [circle(part, low[2]), circle(part, high[2])], round: true };
  if (profile) {
    const ring = (x: number) => profile.map(([y, z]): Place => [x, y, z]);
    return { name, rings: [ring(low[0]), ring(high[0])], round: false };
  }
  const axis = bends === "y" ? 1 : 0;
  const cuts = bends ? CUTS : 1;
  const rings = Array.from({ length: cuts + 1 }, (_, i) =>
    rectangle(part, axis, low[axis] + (i / cuts) * (high[axis] - low[axis])),
  );
  return { name, rings, round: false };
}

/** Across X or Y, once round. */
function rectangle({ low, high }: Part, axis: 0 | 1, at: number): readonly Place[] {
  const across = axis === 0 ? 1 : 0;
  return [
    [low, low],
    [high, low],
    [high, high],
    [low, high],
  ].map(([a, b]): Place => (axis === 0 ? [at, a[across], b[2]] : [a[across], at, b[2]]));
}

function circle({ low, high }: Part, z: number): readonly Place[] {
  const [cx, cy] = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  const [rx, ry] = [(high[0] - low[0]) / 2, (high[1] - low[1]) / 2];
  return Array.from({ length: CORNERS_OF_A_CIRCLE }, (_, i): Place => {
    const angle = (2 * Math.PI * i) / CORNERS_OF_A_CIRCLE;
    return [cx + rx * Math.cos(angle), cy + ry * Math.sin(angle), z];
  });
}
