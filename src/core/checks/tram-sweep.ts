import { poseAt } from "../machine/joint.ts";
import { bedHeight, type Scene, spindleAxis, tip } from "../machine/kinematics.ts";
import { type Dual, divide, scale, subtract, weightedSum } from "../numerics/dual.ts";
import { bothLayouts, type GeometricCheck, type Setup, type Station } from "./check.ts";
import { TRAM_RADIUS, tramPlaces } from "./tram-places.ts";
import { words } from "./words/tram-sweep.ts";

const DIRECTIONS = [
  ["right", 0],
  ["rear", 90],
  ["left", 180],
  ["front", 270],
] as const;

// The height at which the tip stands while the arm is swung: any will do.
const HEIGHT = 20;

/**
 * B(T.xy + R(cos f, sin f)) − [T.z − (a.x R cos f + a.y R sin f)/a.z] + zero by a dial: + where the bed is nearer. By
 * leaves between a bent wire and the bed the gap itself is read, which is wider where the bed is farther: the part
 * before the zero then has the opposite sign.
 */
export const tramSweep: GeometricCheck = {
  id: "tram-sweep",
  kind: "geometric",
  words,
  layouts: bothLayouts,
  quantity: "length",
  instruments: ["dial", "test indicator", "feeler"],
  roles: [],
  lastingError: "cancels",
  atTip: true,
  options: [],
  stations: ({ machine }) =>
    tramPlaces(machine.dimensions).flatMap(({ key, x, y }) =>
      DIRECTIONS.map(([side, f]) => ({
        key: `${key}, ${side}`,
        words: `arm to the ${side}, tool at the ${key}`,
        at: [x, y, HEIGHT] as const,
        figures: { f },
      })),
    ),
  unknowns: (_, station) => [
    { key: `zero ${zeroPlace(station)}`, scope: "run", words: "zero of the dial at this place", mean: 0, sd: 10 },
  ],
  predict: (scene, station, setup, unknown) => {
    const nearer = nearerReads(setup);
    const gap = swungGap(scene, station.at, station.figures?.f as number);
    // The height at which the tip stands is no part of what the zero has to take up.
    return weightedSum([nearer, 1], [gap, unknown(`zero ${zeroPlace(station)}`)], nearer * station.at[2]);
  },
  touches: (setup, { at: [x, y], figures }) => {
    const f = ((figures?.f as number) * Math.PI) / 180;
    const [bedX, bedY] = [x + TRAM_RADIUS * Math.cos(f), y + TRAM_RADIUS * Math.sin(f)];
    return [{ surface: "bed", x: bedX, y: bedY, weight: nearerReads(setup) }];
  },
};

/** A nearer bed pushes a stem in, and leaves less room for leaves. */
function nearerReads({ instrument }: Setup): 1 | -1 {
  return instrument?.family === "feeler" ? -1 : 1;
}

/** How much nearer the bed is at the end of the arm swung to f (degrees from +X to +Y) than the plane across the axis. */
export function swungGap(scene: Scene, [x, y, z]: readonly number[], f: number, radius = TRAM_RADIUS): Dual {
  const pose = poseAt(x, y, z);
  const foot = tip(scene, pose);
  const axis = spindleAxis(scene, pose);
  const c = radius * Math.cos((f * Math.PI) / 180);
  const s = radius * Math.sin((f * Math.PI) / 180);
  const bed = bedHeight(scene, scale(1, foot.x, c), scale(1, foot.y, s));
  const drop = divide(weightedSum([c, s], [axis.x, axis.y]), axis.z);
  return subtract(bed, subtract(foot.z, drop));
}

function zeroPlace(station: Station): string {
  return station.key.split(",")[0];
}
