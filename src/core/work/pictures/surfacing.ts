import { type Outcome, refuse, succeed } from "../../base/outcome.ts";
import { tramPlaces } from "../../checks/tram-places.ts";
import { poseAt } from "../../machine/joint.ts";
import { type Scene, spindleAxis, tip } from "../../machine/kinematics.ts";
import {
  type Dual,
  type DualVector,
  divide,
  dot,
  multiply,
  scale,
  squareRoot,
  subtractVectors,
} from "../../numerics/dual.ts";
import type { WorkState } from "../work-state.ts";
import { type KnownValue, knownValue } from "./known-value.ts";
import { type PlanPlace, reachProblems, sizeProblems } from "./work-place.ts";

/**
 * What is left out is the usual: a flat cutter of 25, a stepover of 0.6 of it, and the worst of five places, the centre
 * and 20 % in from the corners. Lengths in mm.
 */
export interface SurfacingSizes {
  readonly cutterDiameter?: number;
  readonly stepover?: number;
  readonly place?: PlanPlace;
}

/** Passes one after another, each a stepover further to the rear (along X) or to the right (along Y). */
export interface PassesPicture {
  readonly along: "X" | "Y";
  /** Middle of the first of the two passes that are compared. */
  readonly place: PlanPlace;
  /** Floor of the next pass less floor of this one where they meet, mm. */
  readonly ridge: KnownValue;
  /** Which side of every pass is low. */
  readonly lowSide: "front" | "rear" | "left" | "right";
  /** How hollow the floor is across one stepover, mm. */
  readonly hollow: KnownValue;
  /** Sine of the angle by which the axis leans along the passes, against the way the tool travels. */
  readonly leanAlong: number;
}

export interface SurfacingPicture {
  readonly cutterDiameter: number;
  readonly stepover: number;
  readonly alongX: PassesPicture;
  readonly alongY: PassesPicture;
}

/**
 * Two passes meet in a step of a·(T₂ − T₁)/a_z, to first order stepover × (lean of the axis across the passes + slope
 * of the travel across them). Along them a disc of radius R that leans by θ leaves a floor that is hollow by
 *
 *   R·sin θ·(1 − √(1 − (s/2R)²)),  s the stepover
 *
 * a: the axis, up; T₁, T₂: the tip in both passes. Closed form: the lower edge of a leaning disc.
 */
export function surfacingPicture(state: WorkState, sizes: SurfacingSizes = {}): Outcome<SurfacingPicture> {
  const { dimensions: d } = state.scene.machine;
  const cutterDiameter = sizes.cutterDiameter ?? Math.min(25, d.Lx / 4, d.Ly / 4);
  const stepover = sizes.stepover ?? 0.6 * cutterDiameter;
  const problems = [
    ...sizeProblems([
      { field: "cutterDiameter", value: cutterDiameter, from: 1, to: Math.min(d.Lx, d.Ly), unit: "mm" },
      { field: "stepover", value: stepover, from: 0.1, to: cutterDiameter, unit: "mm" },
    ]),
    ...(sizes.place ? reachProblems(d, sizes.place, 2 * stepover, 2 * stepover) : []),
  ];
  if (problems.length > 0) return refuse(...problems);
  const places = sizes.place ? [sizes.place] : tramPlaces(d);
  return succeed({
    cutterDiameter,
    stepover,
    alongX: passes(state, places, "X", cutterDiameter, stepover),
    alongY: passes(state, places, "Y", cutterDiameter, stepover),
  });
}

/**
 * Height of the floor across the passes, mm, the middle of a pass as deep as it goes: `across` counts from the middle of
 * one pass. All passes are taken alike; what is cut lowest stays.
 */
export function floorAcross({ ridge, leanAlong }: PassesPicture, sizes: SurfacingPicture, across: number): number {
  const { cutterDiameter, stepover } = sizes;
  const radius = cutterDiameter / 2;
  const slope = ridge.value / stepover;
  let lowest = Number.POSITIVE_INFINITY;
  for (let pass = Math.ceil((across - radius) / stepover); pass <= (across + radius) / stepover; pass++) {
    const off = across - pass * stepover;
    const dip = Math.abs(leanAlong) * (radius - Math.sqrt(Math.max(0, radius ** 2 - off ** 2)));
    lowest = Math.min(lowest, dip - slope * off);
  }
  return lowest;
}

function passes(
  state: WorkState,
  places: readonly PlanPlace[],
  along: "X" | "Y",
  cutterDiameter: number,
  stepover: number,
): PassesPicture {
  const all = places.map(({ x, y }) => ({ place: { x, y }, ridge: ridgeAt(state.scene, { x, y }, along, stepover) }));
  const worst = all.reduce((a, b) => (Math.abs(b.ridge.value) > Math.abs(a.ridge.value) ? b : a));
  const radius = cutterDiameter / 2;
  const lean = leanAlongPass(state.scene, worst.place, along);
  const shape = radius * (1 - Math.sqrt(1 - (stepover / (2 * radius)) ** 2));
  const isRising = worst.ridge.value > 0;
  return {
    along,
    place: worst.place,
    ridge: knownValue(state, worst.ridge),
    lowSide: along === "X" ? (isRising ? "rear" : "front") : isRising ? "right" : "left",
    hollow: knownValue(state, scale(lean.value < 0 ? -shape : shape, lean)),
    leanAlong: lean.value,
  };
}

function ridgeAt(scene: Scene, { x, y }: PlanPlace, along: "X" | "Y", stepover: number): Dual {
  const first = poseAt(x, y, 0);
  const next = along === "X" ? poseAt(x, y + stepover, 0) : poseAt(x + stepover, y, 0);
  const axis = spindleAxis(scene, first);
  return divide(dot(axis, subtractVectors(tip(scene, next), tip(scene, first))), axis.z);
}

/** Component of the axis along the way of the tool, both of length 1. */
function leanAlongPass(scene: Scene, { x, y }: PlanPlace, along: "X" | "Y"): Dual {
  const half = 0.5;
  const [a, b] =
    along === "X" ? [poseAt(x - half, y, 0), poseAt(x + half, y, 0)] : [poseAt(x, y - half, 0), poseAt(x, y + half, 0)];
  const way = subtractVectors(tip(scene, b), tip(scene, a));
  const axis = spindleAxis(scene, poseAt(x, y, 0));
  return divide(dot(axis, way), multiply(lengthOf(axis), lengthOf(way)));
}

function lengthOf(a: DualVector): Dual {
  return squareRoot(dot(a, a));
}
