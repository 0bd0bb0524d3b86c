import { type Outcome, refuse, succeed } from "../../base/outcome.ts";
import { leastSquaresWeights } from "../../findings/surface-weights.ts";
import { type Arrival, poseAt } from "../../machine/joint.ts";
import { type Scene, tip } from "../../machine/kinematics.ts";
import { combine, type Dual, scale, subtract, weightedSum } from "../../numerics/dual.ts";
import { circularDeviation } from "../../standards/iso230-4.ts";
import type { WorkState } from "../work-state.ts";
import { knownFromDraws, spreadOf } from "./known-from-draws.ts";
import { type KnownValue, knownValue } from "./known-value.ts";
import { middleOfTravel, type PlanPlace, reachProblems, roomAbout, sizeProblems, usualWithin } from "./work-place.ts";

/** What is left out is the usual: radius 75 or what fits, in the middle of the travel, cut at the bed. Lengths in mm. */
export interface CircleSizes {
  /** Of the tool's path. */
  readonly radius?: number;
  readonly place?: PlanPlace;
  /** Height of the cut over the bed. */
  readonly height?: number;
}

/** The path where the tool is commanded to the angle, about the fitted centre, mm. */
export interface PathPoint {
  /** From +X towards +Y, 0 to 360; the four quadrants stand twice, as the tool comes to them and as it leaves. */
  readonly angleDegrees: number;
  /** Distance from the centre less the radius that was commanded. */
  readonly deviation: KnownValue;
}

/** One way round. */
export interface CircularTurn {
  /** By rising angle. */
  readonly path: readonly PathPoint[];
  /** G by [ISO 230-4 §3]: radial separation about the least-squares circle, and the least there is. */
  readonly leastSquares: KnownValue;
  readonly minimumZone: KnownValue;
}

export type TurnName = "counter-clockwise" | "clockwise";

/** A circle as it comes out, cut once round. */
export interface CirclePicture {
  readonly radius: number;
  readonly place: PlanPlace;
  readonly height: number;
  readonly turns: Readonly<Record<TurnName, CircularTurn>>;
  /** G of both ways together. */
  readonly bothWays: { readonly leastSquaresMm: number; readonly minimumZoneMm: number };
  /** The oval without play: mean diameter less the commanded one, both diameters, and where the larger lies. */
  readonly oval: {
    readonly meanDiameter: KnownValue;
    readonly largestDiameter: KnownValue;
    readonly smallestDiameter: KnownValue;
    /** From +X towards +Y, 0 to 180. */
    readonly directionDegrees: number;
  };
  /** How far the path steps outwards where an axis turns about: X at the right and the left, Y at the rear and the front. */
  readonly steps: { readonly x: KnownValue; readonly y: KnownValue };
}

const STEP_DEGREES = 5;
const A_QUARTER = 90 / STEP_DEGREES;

export function circlePicture(state: WorkState, sizes: CircleSizes = {}): Outcome<CirclePicture> {
  const { dimensions: d } = state.scene.machine;
  const place = sizes.place ?? middleOfTravel(d);
  const room = roomAbout(d, place);
  const radius = sizes.radius ?? usualWithin(150, Math.min(room.alongX, room.alongY)) / 2;
  const height = sizes.height ?? 0;
  const problems = [
    ...sizeProblems([
      { field: "radius", value: radius, from: 0.5, to: Math.min(d.Lx, d.Ly) / 2, unit: "mm" },
      { field: "height", value: height, from: 0, to: d.Lz, unit: "mm" },
    ]),
    ...reachProblems(d, place, 2 * radius, 2 * radius),
  ];
  if (problems.length > 0) return refuse(...problems);
  const asked: Asked = { radius, place, height };
  const known = (dual: Dual) => knownValue(state, dual);
  const still = Array.from({ length: 4 * A_QUARTER }, (_, k) => pointAt(state.scene, asked, k * STEP_DEGREES, 0, 0));
  // Where the path's centre lies on the bed is no matter of its shape.
  const centre = { x: mean(still.map(({ x }) => x)), y: mean(still.map(({ y }) => y)) };
  const round = { "counter-clockwise": turn(state, asked, centre, 1), clockwise: turn(state, asked, centre, -1) };
  const both = circularDeviation(joined(Object.values(round).map(({ points }) => points)));
  return succeed({
    ...asked,
    turns: { "counter-clockwise": round["counter-clockwise"].told, clockwise: round.clockwise.told },
    bothWays: { leastSquaresMm: both?.leastSquaresMm ?? 0, minimumZoneMm: both?.minimumZoneMm ?? 0 },
    oval: ovalOf(
      known,
      asked,
      still.map((point) => radial(point, centre, radius)),
    ),
    steps: {
      x: known(stepAt(round["counter-clockwise"].radials, 0)),
      y: known(stepAt(round["counter-clockwise"].radials, 1)),
    },
  });
}

interface Asked {
  readonly radius: number;
  readonly place: PlanPlace;
  readonly height: number;
}

interface PlanDual {
  readonly x: Dual;
  readonly y: Dual;
}

/** Commanded angles of one way round: each quarter with both its ends. */
const angles: readonly number[] = Array.from({ length: 4 * (A_QUARTER + 1) }, (_, i) => {
  const quarter = Math.floor(i / (A_QUARTER + 1));
  return quarter * 90 + (i % (A_QUARTER + 1)) * STEP_DEGREES;
});

// Least-squares radius and centre from radial deviations, to first order: one row each for 1, cos f and sin f.
const circleWeights = leastSquaresWeights(angles.map((f) => [1, Math.cos(rad(f)), Math.sin(rad(f))]));

function turn(state: WorkState, asked: Asked, centre: PlanDual, way: 1 | -1) {
  const points = angles.map((f, i) => {
    const middle = 90 * Math.floor(i / (A_QUARTER + 1)) + 45;
    const arrivedX = Math.sign(-way * Math.sin(rad(middle))) as Arrival;
    const arrivedY = Math.sign(way * Math.cos(rad(middle))) as Arrival;
    return pointAt(state.scene, asked, f, arrivedX, arrivedY);
  });
  const radials = points.map((point) => radial(point, centre, asked.radius));
  const separation = circularDeviation(joined([points]));
  const u = knownFromDraws(state, leftByCircle(radials), spreadOf).expandedUncertainty;
  const told: CircularTurn = {
    path: radials.map((dual, i) => ({ angleDegrees: angles[i], deviation: knownValue(state, dual) })),
    leastSquares: { value: separation?.leastSquaresMm ?? 0, expandedUncertainty: u },
    minimumZone: { value: separation?.minimumZoneMm ?? 0, expandedUncertainty: u },
  };
  return { points, radials, told };
}

/** What the least-squares circle leaves of the deviations, to first order. */
function leftByCircle(radials: readonly Dual[]): readonly Dual[] {
  const [mean0, cos1, sin1] = circleWeights.map((weights) => weightedSum(weights, radials));
  return radials.map((dual, i) =>
    weightedSum([1, -1, -Math.cos(rad(angles[i])), -Math.sin(rad(angles[i]))], [dual, mean0, cos1, sin1]),
  );
}

/**
 * The second harmonic of the deviations: 2/n·Σ δ·cos 2f and 2/n·Σ δ·sin 2f are a and b of an oval with the diameters
 * 2(r + mean ± √(a² + b²)), the larger at ½·atan2(b, a).
 */
function ovalOf(known: (dual: Dual) => KnownValue, { radius }: Asked, radials: readonly Dual[]): CirclePicture["oval"] {
  const n = radials.length;
  const at = radials.map((_, k) => rad(2 * k * STEP_DEGREES));
  const a = weightedSum(
    at.map((f) => (2 / n) * Math.cos(f)),
    radials,
  );
  const b = weightedSum(
    at.map((f) => (2 / n) * Math.sin(f)),
    radials,
  );
  const size = Math.hypot(a.value, b.value);
  const [ca, cb] = size > 0 ? [a.value / size, b.value / size] : [1, 0];
  const amplitude = { ...combine(ca, a, cb, b), value: size };
  const middle = mean(radials);
  const diameter = (sign: 1 | -1) => known(weightedSum([2, 2 * sign], [middle, amplitude], 2 * radius));
  const direction = (Math.atan2(b.value, a.value) * 90) / Math.PI;
  return {
    meanDiameter: known(scale(2, middle, 2 * radius)),
    largestDiameter: diameter(1),
    smallestDiameter: diameter(-1),
    directionDegrees: direction < 0 ? direction + 180 : direction,
  };
}

/** Mean of the steps outwards at two opposite quadrants, going counter-clockwise: 0 for right and left, 1 for rear and front. */
function stepAt(radials: readonly Dual[], quadrant: 0 | 1): Dual {
  const count = radials.length;
  const after = (q: number) => radials[(q * (A_QUARTER + 1)) % count];
  const before = (q: number) => radials[(q * (A_QUARTER + 1) - 1 + count) % count];
  return weightedSum(
    [0.5, -0.5, 0.5, -0.5],
    [after(quadrant), before(quadrant), after(quadrant + 2), before(quadrant + 2)],
  );
}

function pointAt(scene: Scene, { radius, place, height }: Asked, f: number, arrivedX: Arrival, arrivedY: Arrival) {
  const x = place.x + radius * Math.cos(rad(f));
  const y = place.y + radius * Math.sin(rad(f));
  return tip(scene, poseAt(x, y, height, { arrivedX, arrivedY }));
}

/** √((x − x₀)² + (y − y₀)²) − radius */
function radial(point: PlanDual, centre: PlanDual, radius: number): Dual {
  const x = subtract(point.x, centre.x);
  const y = subtract(point.y, centre.y);
  const length = Math.hypot(x.value, y.value);
  return { ...combine(x.value / length, x, y.value / length, y), value: length - radius };
}

function joined(paths: readonly (readonly PlanDual[])[]) {
  const points = paths.flat();
  return { xMm: points.map(({ x }) => x.value), yMm: points.map(({ y }) => y.value) };
}

function mean(terms: readonly Dual[]): Dual {
  return weightedSum(
    terms.map(() => 1 / terms.length),
    terms,
  );
}

function rad(degrees: number): number {
  return (degrees * Math.PI) / 180;
}
