import { type Outcome, refuse, succeed } from "../../base/outcome.ts";
import { type Arrival, poseAt } from "../../machine/joint.ts";
import { type Scene, tip } from "../../machine/kinematics.ts";
import { add, compose, type Dual, distance, divide, multiply, subtract, weightedSum } from "../../numerics/dual.ts";
import type { WorkState } from "../work-state.ts";
import { type KnownValue, knownValue, type Ring, ringOf, withoutGradients } from "./known-value.ts";
import { middleOfTravel, type PlanPlace, reachProblems, roomAbout, sizeProblems, usualWithin } from "./work-place.ts";

/** What is left out is the usual: 300 × 300 or what fits, in the middle of the travel, cut at the bed. Lengths in mm. */
export interface RectangleSizes {
  readonly alongX?: number;
  readonly alongY?: number;
  readonly place?: PlanPlace;
  /** Height of the cut over the bed. */
  readonly height?: number;
}

export type CornerName = "front left" | "front right" | "rear right" | "rear left";

/** A corner of the part, about the part's own middle: where it should be, and by how much it is off. mm. */
export interface RectangleCorner {
  readonly name: CornerName;
  readonly nominal: readonly [x: number, y: number];
  readonly off: readonly [x: KnownValue, y: KnownValue];
  readonly ring: Ring;
  /** Angle less 90°, mm/m; + wider. */
  readonly angle: KnownValue;
}

/** A rectangle as it comes out, cut once round. */
export interface RectanglePicture {
  readonly alongX: number;
  readonly alongY: number;
  readonly place: PlanPlace;
  readonly height: number;
  /** Counter-clockwise from the front left. */
  readonly corners: readonly RectangleCorner[];
  /** The four sides with their own shape, counter-clockwise from the front left corner, about the part's middle, mm. */
  readonly outline: readonly { readonly nominal: readonly [number, number]; readonly off: readonly [number, number] }[];
  /** Lengths of the sides from corner to corner, mm. */
  readonly sides: Readonly<Record<"front" | "rear" | "left" | "right", KnownValue>>;
  readonly diagonals: {
    readonly fromFrontLeft: KnownValue;
    readonly fromFrontRight: KnownValue;
    /** The first less the second: + when the corner at the front left is narrow. */
    readonly difference: KnownValue;
  };
  /** Mean over the corners of how much wider than 90° the front left corner and its opposite are, mm/m. */
  readonly skew: KnownValue;
}

const corners: readonly { readonly name: CornerName; readonly toX: 1 | -1; readonly toY: 1 | -1 }[] = [
  { name: "front left", toX: -1, toY: -1 },
  { name: "front right", toX: 1, toY: -1 },
  { name: "rear right", toX: 1, toY: 1 },
  { name: "rear left", toX: -1, toY: 1 },
];

/**
 * The corners are where the lines of the sides meet. Whichever way round it is cut, X comes to the right side going right
 * and to the left side going left, and Y likewise: with play every side lies nearer to the middle than it should. The
 * cutter's own size is left out; where the part lies on the bed is no matter of its shape.
 */
export function rectanglePicture(state: WorkState, sizes: RectangleSizes = {}): Outcome<RectanglePicture> {
  const { dimensions: d } = state.scene.machine;
  const place = sizes.place ?? middleOfTravel(d);
  const room = roomAbout(d, place);
  const usual = usualWithin(300, Math.min(room.alongX, room.alongY));
  const alongX = sizes.alongX ?? usual;
  const alongY = sizes.alongY ?? usual;
  const height = sizes.height ?? 0;
  const problems = [
    ...sizeProblems([
      { field: "alongX", value: alongX, from: 1, to: d.Lx, unit: "mm" },
      { field: "alongY", value: alongY, from: 1, to: d.Ly, unit: "mm" },
      { field: "height", value: height, from: 0, to: d.Lz, unit: "mm" },
    ]),
    ...reachProblems(d, place, alongX, alongY),
  ];
  if (problems.length > 0) return refuse(...problems);
  const asked: Asked = { alongX, alongY, place, height };
  const at = corners.map(({ toX, toY }) => cornerOf(state.scene, asked, toX, toY));
  const middle = { x: mean(at.map(({ x }) => x)), y: mean(at.map(({ y }) => y)) };
  const [frontLeft, frontRight, rearRight, rearLeft] = at;
  const angles = at.map((corner, i) => angleOverSquare(corner, at[(i + 1) % 4], at[(i + 3) % 4]));
  const rising = lengthOf(frontLeft, rearRight);
  const falling = lengthOf(frontRight, rearLeft);
  const known = (dual: Dual) => knownValue(state, dual);
  return succeed({
    ...asked,
    corners: corners.map(({ name, toX, toY }, i) => {
      const nominal = [(toX * alongX) / 2, (toY * alongY) / 2] as const;
      const [x, y] = [subtract(at[i].x, middle.x), subtract(at[i].y, middle.y)];
      const off = [offset(known(x), nominal[0]), offset(known(y), nominal[1])] as const;
      return { name, nominal, off, ring: ringOf(state, x, y), angle: known(angles[i]) };
    }),
    outline: outlineOf(withoutGradients(state), asked),
    sides: {
      front: known(lengthOf(frontLeft, frontRight)),
      rear: known(lengthOf(rearLeft, rearRight)),
      left: known(lengthOf(frontLeft, rearLeft)),
      right: known(lengthOf(frontRight, rearRight)),
    },
    diagonals: {
      fromFrontLeft: known(rising),
      fromFrontRight: known(falling),
      difference: known(subtract(rising, falling)),
    },
    skew: known(skewOf(angles)),
  });
}

/** Skew of a rectangle that is known to fit: as in `RectanglePicture`. */
export function rectangleSkew(scene: Scene, asked: Asked): Dual {
  const at = corners.map(({ toX, toY }) => cornerOf(scene, asked, toX, toY));
  return skewOf(at.map((corner, i) => angleOverSquare(corner, at[(i + 1) % 4], at[(i + 3) % 4])));
}

interface Asked {
  readonly alongX: number;
  readonly alongY: number;
  readonly place: PlanPlace;
  readonly height: number;
}

interface PlanDual {
  readonly x: Dual;
  readonly y: Dual;
}

function cornerOf(scene: Scene, asked: Asked, toX: 1 | -1, toY: 1 | -1): PlanDual {
  return tipAt(scene, asked, toX, toY, toX, toY);
}

/** The tip at a place given in halves of the sides from the middle. */
function tipAt(
  scene: Scene,
  { alongX, alongY, place, height }: Asked,
  u: number,
  v: number,
  arrivedX: Arrival,
  arrivedY: Arrival,
): PlanDual {
  return tip(scene, poseAt(place.x + (u * alongX) / 2, place.y + (v * alongY) / 2, height, { arrivedX, arrivedY }));
}

const STEPS_A_SIDE = 12;

function outlineOf(scene: Scene, asked: Asked): RectanglePicture["outline"] {
  const points = corners.flatMap((from, i) => {
    const to = corners[(i + 1) % 4];
    return Array.from({ length: STEPS_A_SIDE }, (_, k) => {
      const t = k / STEPS_A_SIDE;
      const u = from.toX + t * (to.toX - from.toX);
      const v = from.toY + t * (to.toY - from.toY);
      // Play moves points along a side only at its ends, where another side meets it.
      const a = tipAt(scene, asked, u, v, from.toX, from.toY);
      const b = tipAt(scene, asked, u, v, to.toX, to.toY);
      const nominal = [(u * asked.alongX) / 2, (v * asked.alongY) / 2] as const;
      return {
        nominal,
        at: [(1 - t) * a.x.value + t * b.x.value, (1 - t) * a.y.value + t * b.y.value] as const,
      };
    });
  });
  const ends = points.filter((_, i) => i % STEPS_A_SIDE === 0);
  const middleX = ends.reduce((sum, { at }) => sum + at[0], 0) / 4;
  const middleY = ends.reduce((sum, { at }) => sum + at[1], 0) / 4;
  return points.map(({ nominal, at }) => ({
    nominal,
    off: [at[0] - middleX - nominal[0], at[1] - middleY - nominal[1]] as const,
  }));
}

/** 1000·(angle − 90°) in rad between the ways from a corner to its neighbours: −1000·asin(a·b / |a||b|). */
function angleOverSquare(corner: PlanDual, next: PlanDual, before: PlanDual): Dual {
  const a = { x: subtract(next.x, corner.x), y: subtract(next.y, corner.y) };
  const b = { x: subtract(before.x, corner.x), y: subtract(before.y, corner.y) };
  const sides = multiply(lengthOf(next, corner), lengthOf(before, corner));
  const cosine = divide(add(multiply(a.x, b.x), multiply(a.y, b.y)), sides);
  return compose(-1000 * Math.asin(cosine.value), -1000 / Math.sqrt(1 - cosine.value ** 2), cosine);
}

function skewOf(angles: readonly Dual[]): Dual {
  return weightedSum([0.25, -0.25, 0.25, -0.25], angles);
}

/** Length in plan. */
function lengthOf(a: PlanDual, b: PlanDual): Dual {
  const flat = { value: 0, gradient: new Float64Array(a.x.gradient.length) };
  return distance({ ...a, z: flat }, { ...b, z: flat });
}

function mean(terms: readonly Dual[]): Dual {
  return weightedSum(
    terms.map(() => 1 / terms.length),
    terms,
  );
}

function offset({ value, expandedUncertainty }: KnownValue, nominal: number): KnownValue {
  return { value: value - nominal, expandedUncertainty };
}
