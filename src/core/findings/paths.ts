import type { Axis } from "../machine/description.ts";
import { poseAt } from "../machine/joint.ts";
import { bedHeight, bedHeightAt, type Scene, tip } from "../machine/kinematics.ts";
import { type Dual, type DualVector, subtract, weightedSum } from "../numerics/dual.ts";

/** Height over the bed at which the paths in plan are taken, mm. */
const PATH_HEIGHT = 10;

export const PATH_POINTS = 11;

/** The tip at equal steps along one axis through the middle of the others, over the whole travel. */
export function pathAlong(
  scene: Scene,
  axis: Axis,
): { readonly at: readonly number[]; readonly points: readonly DualVector[] } {
  const { Lx, Ly, Lz } = scene.machine.dimensions;
  const length = { x: Lx, y: Ly, z: Lz }[axis];
  const at = Array.from({ length: PATH_POINTS }, (_, i) => (i / (PATH_POINTS - 1)) * length);
  const middle = { x: Lx / 2, y: Ly / 2, z: PATH_HEIGHT };
  const points = at.map((value) => {
    const place: Record<Axis, number> = { ...middle };
    place[axis] = value;
    return tip(scene, poseAt(place.x, place.y, place.z));
  });
  return { at, points };
}

/** Slope of the least-squares line of the values over `at`: Σ(s − s̄)·value / Σ(s − s̄)². */
export function slopeOf(at: readonly number[], values: readonly Dual[]): Dual {
  const mean = at.reduce((sum, s) => sum + s, 0) / at.length;
  const squares = at.reduce((sum, s) => sum + (s - mean) ** 2, 0);
  return weightedSum(
    at.map((s) => (s - mean) / squares),
    values,
  );
}

/** Slope of one coordinate of the path along an axis over the commanded coordinate, mm per mm. */
export function pathSlope(scene: Scene, axis: Axis, of: Axis): Dual {
  const { at, points } = pathAlong(scene, axis);
  return slopeOf(
    at,
    points.map((point) => point[of]),
  );
}

interface PlaneSlopes {
  readonly alongX: Dual;
  readonly alongY: Dual;
}

const GRID = [0.05, 0.275, 0.5, 0.725, 0.95];

/** Five by five places over the travel, from 5 to 95 %, as fractions. */
export const areaPlaces: readonly (readonly [u: number, v: number])[] = GRID.flatMap((v) =>
  GRID.map((u) => [u, v] as const),
);

/** Tool height over the bed for a flat cut at commanded z = 0, at the places of the area, mm. */
export const heightsOverBed = oncePerScene((scene): readonly Dual[] => {
  const { Lx, Ly } = scene.machine.dimensions;
  return areaPlaces.map(([u, v]) => {
    const place = tip(scene, poseAt(u * Lx, v * Ly, 0));
    return subtract(place.z, bedHeight(scene, place.x, place.y));
  });
});

/** Slopes of the least-squares plane of the tip's height over the travel: the plane of motion, mm per mm. */
export const planeOfMotion = oncePerScene((scene): PlaneSlopes => {
  const { Lx, Ly } = scene.machine.dimensions;
  return planeSlopes(
    scene,
    areaPlaces.map(([u, v]) => tip(scene, poseAt(u * Lx, v * Ly, 0)).z),
  );
});

/** Slopes of the least-squares plane of the bed, mm per mm. */
export const planeOfBed = oncePerScene((scene): PlaneSlopes => {
  const { Lx, Ly } = scene.machine.dimensions;
  return planeSlopes(
    scene,
    areaPlaces.map(([u, v]) => bedHeightAt(scene, u * Lx, v * Ly)),
  );
});

/** The places are a full grid, so both slopes are simple regressions. */
function planeSlopes(scene: Scene, heights: readonly Dual[]): PlaneSlopes {
  const { Lx, Ly } = scene.machine.dimensions;
  return {
    alongX: slopeOf(
      areaPlaces.map(([u]) => u * Lx),
      heights,
    ),
    alongY: slopeOf(
      areaPlaces.map(([, v]) => v * Ly),
      heights,
    ),
  };
}

/** Several findings look at the same surface: it is sampled once for each scene. */
function oncePerScene<T extends object>(compute: (scene: Scene) => T): (scene: Scene) => T {
  const known = new WeakMap<Scene, T>();
  return (scene) => {
    const before = known.get(scene);
    if (before) return before;
    const value = compute(scene);
    known.set(scene, value);
    return value;
  };
}
