import { emptyRotation, rotate, rotationDerivative, rotationFromVector } from "../geometry/rotation.ts";
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
import { bump, component, type Joint, type JointTerm, type Pose, poseAt } from "./joint.ts";
import type { Machine } from "./machine.ts";
import type { Member } from "./modes.ts";

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
  if (carriesWork(scene, member)) return new MovingPoint(scene, ...place).place(0);
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
  const moving = new MovingPoint(scene, place[0], place[1] - shift, place[2]);
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
  const moving = new MovingPoint(scene, place[0], place[1] - workShift(scene, pose), place[2]);
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

// Written over by every joint; nothing of them outlives one. A tip is asked for thousands of times an iteration.
const motion = new Float64Array(6);
const rotated = new Float64Array(3);
const turn = new Float64Array(9);
const rotation = emptyRotation();
// Where the parameters of the joint at hand stand in the state: as many as no joint has terms.
const columns = new Int32Array(256);

type Rows = readonly [Float64Array, Float64Array, Float64Array];

/** Three rows in one piece of memory, which is faster to come by than three. */
function emptyRows(size: number): Rows {
  const bytes = 8 * size;
  const rows = new ArrayBuffer(3 * bytes);
  return [
    new Float64Array(rows, 0, size),
    new Float64Array(rows, bytes, size),
    new Float64Array(rows, 2 * bytes, size),
  ];
}

const noRows = emptyRows(0);

/** A point and its gradient on its way through the joints, innermost first. */
class MovingPoint {
  readonly #scene: Scene;
  readonly #position: [number, number, number];
  /** Rows x, y, z over the machine's parameters; later columns stay 0. */
  readonly #gradient: Rows;

  constructor(scene: Scene, x: number, y: number, z: number) {
    this.#scene = scene;
    this.#position = [x, y, z];
    this.#gradient = scene.size === 0 ? noRows : emptyRows(scene.size);
  }

  carryBy(joint: Joint, pose: Pose): void {
    const { dimensions } = this.#scene.machine;
    this.carry(joint.terms(dimensions, pose), joint.origin(dimensions, pose), joint.translatesFirst ?? false);
  }

  carry(terms: readonly JointTerm[], origin: readonly [number, number, number], translatesFirst: boolean): void {
    this.#readMotion(terms);
    rotationFromVector(motion[0], motion[1], motion[2], rotation);
    const p = this.#position;
    const first = translatesFirst ? 1 : 0;
    const ax = p[0] - origin[0] + first * motion[3];
    const ay = p[1] - origin[1] + first * motion[4];
    const az = p[2] - origin[2] + first * motion[5];
    rotate(rotation.matrix, ax, ay, az, rotated);
    for (let i = 0; i < 3; i++) p[i] = origin[i] + rotated[i] + (1 - first) * motion[3 + i];
    if (this.#scene.size === 0) return;
    this.#rotateGradient(rotation.matrix);
    rotationDerivative(rotation, ax, ay, az, turn);
    this.#addTerms(terms, translatesFirst ? rotation.matrix : null, 1);
  }

  /** The inverse of a joint's motion: p → o + R(w)ᵀ(p − t − o). */
  undo(joint: Joint, pose: Pose): void {
    const { dimensions } = this.#scene.machine;
    const terms = joint.terms(dimensions, pose);
    const origin = joint.origin(dimensions, pose);
    this.#readMotion(terms);
    rotationFromVector(-motion[0], -motion[1], -motion[2], rotation);
    const p = this.#position;
    const ax = p[0] - motion[3] - origin[0];
    const ay = p[1] - motion[4] - origin[1];
    const az = p[2] - motion[5] - origin[2];
    rotate(rotation.matrix, ax, ay, az, rotated);
    for (let i = 0; i < 3; i++) p[i] = origin[i] + rotated[i];
    if (this.#scene.size === 0) return;
    this.#rotateGradient(rotation.matrix);
    rotationDerivative(rotation, ax, ay, az, turn);
    this.#addTerms(terms, rotation.matrix, -1);
  }

  place(shiftY: number): DualVector {
    const [x, y, z] = this.#gradient;
    const p = this.#position;
    return {
      x: { value: p[0], gradient: x },
      y: { value: p[1] + shiftY, gradient: y },
      z: { value: p[2], gradient: z },
    };
  }

  #readMotion(terms: readonly JointTerm[]): void {
    const { machine, state } = this.#scene;
    motion.fill(0);
    for (let i = 0; i < terms.length; i++) {
      const term = terms[i];
      const column = machine.parameterIndex.get(term[0]) ?? -1;
      columns[i] = column;
      if (column >= 0) motion[component[term[1]]] += term[2] * state[column];
    }
  }

  #rotateGradient(r: Float64Array): void {
    const [gx, gy, gz] = this.#gradient;
    const count = this.#scene.machine.parameters.length;
    for (let i = 0; i < count; i++) {
      const x = gx[i];
      const y = gy[i];
      const z = gz[i];
      // Most columns belong to joints further out, or to no joint.
      if (x === 0 && y === 0 && z === 0) continue;
      gx[i] = r[0] * x + r[1] * y + r[2] * z;
      gy[i] = r[3] * x + r[4] * y + r[5] * z;
      gz[i] = r[6] * x + r[7] * y + r[8] * z;
    }
  }

  /** Adds sign·(∂p/∂w · dw + push · dt), ∂p/∂w in `turn`; `push` null stands for the identity. */
  #addTerms(terms: readonly JointTerm[], push: Float64Array | null, sign: 1 | -1): void {
    const [gx, gy, gz] = this.#gradient;
    for (let i = 0; i < terms.length; i++) {
      const term = terms[i];
      const index = columns[i];
      if (index < 0) continue;
      const k = component[term[1]];
      const f = sign * term[2];
      if (k < 3) {
        gx[index] += f * turn[k];
        gy[index] += f * turn[3 + k];
        gz[index] += f * turn[6 + k];
      } else if (push) {
        gx[index] += f * push[k - 3];
        gy[index] += f * push[k];
        gz[index] += f * push[k + 3];
      } else {
        this.#gradient[k - 3][index] += f;
      }
    }
  }
}

function angle(scene: Scene, parameterId: string): Dual {
  return scale(1e-3, read(scene, parameterId));
}
