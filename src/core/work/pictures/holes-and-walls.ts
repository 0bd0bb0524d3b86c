import { type Outcome, refuse, succeed } from "../../base/outcome.ts";
import { tramPlaces } from "../../checks/tram-places.ts";
import { poseAt } from "../../machine/joint.ts";
import { bedDirections, type Scene, spindleAxis, tip } from "../../machine/kinematics.ts";
import { type Dual, divide, dot, scale, subtractVectors } from "../../numerics/dual.ts";
import type { WorkState } from "../work-state.ts";
import { type KnownValue, knownValue, type Ring, ringOf } from "./known-value.ts";
import { type PlanPlace, reachProblems, sizeProblems } from "./work-place.ts";

/** What is left out is the usual: 18 deep or half the travel, the worst of five places. Lengths in mm. */
export interface HolesAndWallsSizes {
  readonly depth?: number;
  readonly place?: PlanPlace;
}

/** From the upper face of the work to the bottom, mm; side + to the right, fore + to the rear. */
export interface Lean {
  readonly side: KnownValue;
  readonly fore: KnownValue;
}

export interface HolesAndWallsPicture {
  readonly depth: number;
  readonly place: PlanPlace;
  /** Where a hole comes out at the bottom, from where it went in: the way the cutter plunges. */
  readonly hole: Lean & { readonly ring: Ring };
  /** Where the foot of a wall that is cut at one go stands, from its top: the way the cutter's axis stands. */
  readonly wall: Lean;
}

/**
 * Against a board that lies on the bed: the plunge is T(z = 0) − T(z = depth) along the bed's own directions at the
 * place; a wall has the slope of the cutter's axis a to the bed's normal n, −depth·(a·e)/(a·n), e along the bed.
 */
export function holesAndWallsPicture(state: WorkState, sizes: HolesAndWallsSizes = {}): Outcome<HolesAndWallsPicture> {
  const { scene } = state;
  const { dimensions: d } = scene.machine;
  const depth = sizes.depth ?? Math.min(18, d.Lz / 2);
  const problems = [
    ...sizeProblems([{ field: "depth", value: depth, from: 0.1, to: d.Lz, unit: "mm" }]),
    ...(sizes.place ? reachProblems(d, sizes.place, 0, 0) : []),
  ];
  if (problems.length > 0) return refuse(...problems);
  const all = (sizes.place ? [sizes.place] : tramPlaces(d)).map((place) => ({
    place,
    ...leans(scene, place, depth),
  }));
  const most = ({ hole, wall }: (typeof all)[number]) =>
    Math.max(Math.hypot(hole.side.value, hole.fore.value), Math.hypot(wall.side.value, wall.fore.value));
  const { place, hole, wall } = all.reduce((a, b) => (most(b) > most(a) ? b : a));
  return succeed({
    depth,
    place,
    hole: {
      side: knownValue(state, hole.side),
      fore: knownValue(state, hole.fore),
      ring: ringOf(state, hole.side, hole.fore),
    },
    wall: { side: knownValue(state, wall.side), fore: knownValue(state, wall.fore) },
  });
}

interface DualLean {
  readonly side: Dual;
  readonly fore: Dual;
}

function leans(scene: Scene, { x, y }: PlanPlace, depth: number): { readonly hole: DualLean; readonly wall: DualLean } {
  const foot = tip(scene, poseAt(x, y, 0));
  const way = subtractVectors(foot, tip(scene, poseAt(x, y, depth)));
  const axis = spindleAxis(scene, poseAt(x, y, 0));
  const { normal, alongX, alongY } = bedDirections(scene, foot.x, foot.y);
  const upright = dot(axis, normal);
  return {
    hole: { side: dot(way, alongX), fore: dot(way, alongY) },
    wall: {
      side: scale(-depth, divide(dot(axis, alongX), upright)),
      fore: scale(-depth, divide(dot(axis, alongY), upright)),
    },
  };
}
