import {
  combine,
  compose,
  constant,
  cosine,
  type Dual,
  type DualVector,
  multiply,
  scale,
  sine,
  subtract,
  weightedSum,
} from "../numerics/dual.ts";
import { bump, type Pose, poseAt } from "./joint.ts";
import type { Machine } from "./machine.ts";
import type { Member } from "./modes.ts";
import { MovingPoint } from "./moving-point.ts";

/**
 * A machine in one state, asked for places and their gradients.
 *
 * Gradients have `size` columns: first the machine's parameters, then (when the bed has been skimmed) the parameters of
 * the state in which it was skimmed, then unknowns that are not the machine's. With size 0 only values are computed.
 * Everything is exact in the forward direction; the frame is the work frame, glued to the bed's base.
 */
export interface Scene {
  readonly machine: Machine;
  readonly state: Float64Array;
  readonly size: number;
  /** The state in which the bed was last skimmed, and the column of its first parameter. */
  readonly skim: { readonly state: Float64Array; readonly column: number } | null;
}

export function valuesOnly(machine: Machine, state: Float64Array, skimState: Float64Array | null = null): Scene {
  return { machine, state, size: 0, skim: skimState && { state: skimState, column: 0 } };
}

/** Where the tip is when commanded to the pose. */
export function tip(scene: Scene, pose: Pose): DualVector {
  return placeOnMember(scene, "spindle", [pose.x, pose.y, pose.z], pose);
}

/** Where a point that nominally stands at `place` and rides on the member really is. */
export function placeOnMember(
  scene: Scene,
  member: Member,
  place: readonly [number, number, number],
  pose: Pose,
): DualVector {
  // The frame of all places is glued to what carries the work.
  if (carriesWork(scene, member)) return movingPoint(scene, ...place).place(0);
  const moving = carryThroughToolBranch(scene, member, place, pose);
  for (const joint of scene.machine.layout.workBranch) moving.undo(joint, pose);
  return moving.place(workShift(scene, pose));
}

/** The same seen from the floor: a level knows of gravity, and a table that carries the work moves against it. */
export function placeOverFloor(
  scene: Scene,
  member: Member,
  place: readonly [number, number, number],
  pose: Pose,
): DualVector {
  if (!carriesWork(scene, member))
    return carryThroughToolBranch(scene, member, place, pose).place(workShift(scene, pose));
  const shift = workShift(scene, pose);
  const moving = movingPoint(scene, place[0], place[1] - shift, place[2]);
  for (const joint of scene.machine.layout.workBranch) moving.carryBy(joint, pose);
  return moving.place(shift);
}

function carriesWork({ machine }: Scene, member: Member): boolean {
  return member === "bed" || machine.layout.workBranch.some((joint) => joint.carries === member);
}

/** A table that carries the work has gone to the front by what the tool has gone to the rear over it. */
function workShift(scene: Scene, pose: Pose): number {
  return scene.machine.layout.workBranch.length > 0 ? pose.y : 0;
}

function carryThroughToolBranch(
  scene: Scene,
  member: Member,
  place: readonly [number, number, number],
  pose: Pose,
): MovingPoint {
  const { dimensions, layout } = scene.machine;
  const moving = movingPoint(scene, place[0], place[1] - workShift(scene, pose), place[2]);
  const last = layout.toolBranch.findIndex((joint) => joint.carries === member);
  const riders = layout.toolBranch.slice(0, last + 1);
  // A beam bends: a point of it has the shape of the beam joint at its own x.
  const bending = member === "beam" ? layout.toolBranch[last + 1] : undefined;
  if (bending?.bendingAt && bending.bendingOrigin) {
    moving.carry(bending.bendingAt(dimensions, place[0]), bending.bendingOrigin(dimensions, pose, place[0]), false);
  }
  for (const joint of riders.reverse()) moving.carryBy(joint, pose);
  return moving;
}

/** Unit vector of the spindle's axis, up, at the pose. */
export function spindleAxis(scene: Scene, pose: Pose): DualVector {
  const up = placeOnMember(scene, "spindle", [pose.x, pose.y, pose.z + 1], pose);
  const foot = tip(scene, pose);
  return { x: subtract(up.x, foot.x), y: subtract(up.y, foot.y), z: subtract(up.z, foot.z) };
}

/** B(x, y): height of the bed's surface at an actual place. */
export function bedHeight(scene: Scene, x: Dual, y: Dual): Dual {
  const shape = bedShape(scene, x, y);
  return scene.skim ? skimmedHeight(scene, shape, x, y) : shape;
}

export function bedHeightAt(scene: Scene, x: number, y: number): Dual {
  return bedHeight(scene, constant(x, scene.size), constant(y, scene.size));
}

/** The bed's unit normal and unit tangents towards +X and +Y at a place. */
export interface BedDirections {
  readonly normal: DualVector;
  readonly alongX: DualVector;
  readonly alongY: DualVector;
}

export function bedDirections(scene: Scene, x: Dual, y: Dual): BedDirections {
  // The surface is of second degree along X and Y, so a central difference over 1 mm is its slope.
  const half = 0.5;
  const sx = subtract(bedHeight(scene, shifted(x, half), y), bedHeight(scene, shifted(x, -half), y));
  const sy = subtract(bedHeight(scene, x, shifted(y, half)), bedHeight(scene, x, shifted(y, -half)));
  const [p, q] = [sx.value, sy.value];
  const zero = constant(0, scene.size);
  // (1, 0, p) and (0, 1, q) divided by their lengths, (−p, −q, 1) by its own, with their derivatives by p and q.
  const cx = 1 / Math.hypot(1, p);
  const cy = 1 / Math.hypot(1, q);
  const cn = 1 / Math.hypot(1, p, q);
  const cube = cn ** 3;
  return {
    alongX: { x: compose(cx, -p * cx ** 3, sx), y: zero, z: compose(p * cx, cx ** 3, sx) },
    alongY: { x: zero, y: compose(cy, -q * cy ** 3, sy), z: compose(q * cy, cy ** 3, sy) },
    normal: {
      x: { ...combine(p * p * cube - cn, sx, p * q * cube, sy), value: -p * cn },
      y: { ...combine(p * q * cube, sx, q * q * cube - cn, sy), value: -q * cn },
      z: { ...combine(-p * cube, sx, -q * cube, sy), value: cn },
    },
  };
}

/** The same dual, by a constant further on. */
function shifted(a: Dual, by: number): Dual {
  return { value: a.value + by, gradient: a.gradient };
}

/** G(x, y): where the crossing of the printed grid is that nominally stands at x, y. Its height is left to `bedHeight`. */
export function gridCrossing(scene: Scene, x: number, y: number): { readonly x: Dual; readonly y: Dual } {
  const { Lx, Ly } = scene.machine.dimensions;
  const yaw = angle(scene, "grid.yaw");
  const lean = weightedSum([1, 1], [yaw, angle(scene, "grid.skew")]);
  const alongX = scale(1e-3 * (x - Lx / 2), read(scene, "grid.scale.x"), x - Lx / 2);
  const alongY = scale(1e-3 * (y - Ly / 2), read(scene, "grid.scale.y"), y - Ly / 2);
  return {
    x: weightedSum([1, -1], [multiply(cosine(yaw), alongX), multiply(sine(lean), alongY)], Lx / 2),
    y: weightedSum([1, 1], [multiply(sine(yaw), alongX), multiply(cosine(lean), alongY)], Ly / 2),
  };
}

/** A parameter of the machine as a dual. */
export function read(scene: Scene, parameterId: string): Dual {
  const index = scene.machine.parameterIndex.get(parameterId);
  const gradient = new Float64Array(scene.size);
  if (index === undefined) return { value: 0, gradient };
  if (scene.size > 0) gradient[index] = 1;
  return { value: scene.state[index], gradient };
}

/** Height of the bed's own shape: linear in its modes, so each has a height and a slope both ways per unit. */
function bedShape(scene: Scene, x: Dual, y: Dual): Dual {
  const { machine, state, size } = scene;
  const { Lx, Ly } = machine.dimensions;
  const u = x.value / Lx;
  const v = y.value / Ly;
  const perUnit = [
    ["bed.height", 1, 0, 0],
    ["bed.tilt.x", 1e-3 * (x.value - Lx / 2), 1e-3, 0],
    ["bed.tilt.y", 1e-3 * (y.value - Ly / 2), 0, 1e-3],
    ["bed.twist", 4 * (u - 0.5) * (v - 0.5), (4 * (v - 0.5)) / Lx, (4 * (u - 0.5)) / Ly],
    ["bed.dome.x", bump(u), (4 - 8 * u) / Lx, 0],
    ["bed.dome.y", bump(v), 0, (4 - 8 * v) / Ly],
  ] as const;
  const gradient = new Float64Array(size);
  let value = 0;
  let slopeX = 0;
  let slopeY = 0;
  for (const [id, height, alongX, alongY] of perUnit) {
    const column = machine.parameterIndex.get(id) as number;
    value += height * state[column];
    slopeX += alongX * state[column];
    slopeY += alongY * state[column];
    if (size > 0) gradient[column] = height;
  }
  for (let i = 0; i < size; i++) gradient[i] += slopeX * x.gradient[i] + slopeY * y.gradient[i];
  return { value, gradient };
}

/**
 * The surface that skimming left: the tip's height at commanded z = 0 over the place, in the state of that moment, plus
 * what the bed's own modes have become since.
 */
function skimmedHeight(scene: Scene, since: Dual, x: Dual, y: Dual): Dual {
  const { state, column } = scene.skim as NonNullable<Scene["skim"]>;
  const { machine, size } = scene;
  const then: Scene = { machine, state, size: size > 0 ? machine.parameters.length : 0, skim: null };
  const bare: Scene = { ...then, size: 0 };
  // Commanded so that the tip stands over the place: two corrections leave less than 10⁻⁶ mm of height.
  let cx = x.value;
  let cy = y.value;
  for (let correction = 0; correction < 2; correction++) {
    const there = tip(bare, poseAt(cx, cy, 0));
    cx += x.value - there.x.value;
    cy += y.value - there.y.value;
  }
  const height = (dx: number, dy: number) => tip(bare, poseAt(cx + dx, cy + dy, 0)).z.value;
  const slopeX = (height(1, 0) - height(-1, 0)) / 2;
  const slopeY = (height(0, 1) - height(0, -1)) / 2;
  const cut = tip(then, poseAt(cx, cy, 0));
  const gradient = new Float64Array(size);
  if (size > 0) {
    for (let i = 0; i < machine.parameters.length; i++) {
      // Where the tip stands depends on that state as well: the height is taken at a fixed place.
      gradient[column + i] = cut.z.gradient[i] - slopeX * cut.x.gradient[i] - slopeY * cut.y.gradient[i];
    }
    for (let i = 0; i < size; i++) {
      gradient[i] += since.gradient[i] + slopeX * x.gradient[i] + slopeY * y.gradient[i];
    }
  }
  return { value: cut.z.value + since.value, gradient };
}

function movingPoint({ machine, state, size }: Scene, x: number, y: number, z: number): MovingPoint {
  return new MovingPoint(machine, state, size, x, y, z);
}

function angle(scene: Scene, parameterId: string): Dual {
  return scale(1e-3, read(scene, parameterId));
}
