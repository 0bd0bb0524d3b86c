import { emptyRotation, rotate, rotationDerivative, rotationFromVector } from "../geometry/rotation.ts";
import type { DualVector } from "../numerics/dual.ts";
import { component, type Joint, type JointTerm, type Pose } from "./joint.ts";
import type { Machine } from "./machine.ts";

// Written over by every joint; nothing of them outlives one. A tip is asked for thousands of times an iteration.
const motion = new Float64Array(6);
const rotated = new Float64Array(3);
const turn = new Float64Array(9);
const rotation = emptyRotation();
// Where the parameters of the joint at hand stand in the state; room for more terms than any joint has.
const columns = new Int32Array(256);

/**
 * A point and its gradient on its way through the joints, innermost first. The gradient has `size` columns, first the
 * machine's parameters; later ones stay 0. With size 0 only values are carried.
 */
export class MovingPoint {
  readonly #machine: Machine;
  readonly #state: Float64Array;
  readonly #size: number;
  readonly #position: [number, number, number];
  /** Rows x, y, z over the machine's parameters; later columns stay 0. */
  readonly #gradient: Rows;

  constructor(machine: Machine, state: Float64Array, size: number, x: number, y: number, z: number) {
    this.#machine = machine;
    this.#state = state;
    this.#size = size;
    this.#position = [x, y, z];
    this.#gradient = size === 0 ? noRows : emptyRows(size);
  }

  carryBy(joint: Joint, pose: Pose): void {
    const { dimensions } = this.#machine;
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
    if (this.#size === 0) return;
    this.#rotateGradient(rotation.matrix);
    rotationDerivative(rotation, ax, ay, az, turn);
    this.#addTerms(terms, translatesFirst ? rotation.matrix : null, 1);
  }

  /** The inverse of a joint's motion: p → o + R(w)ᵀ(p − t − o). */
  undo(joint: Joint, pose: Pose): void {
    const { dimensions } = this.#machine;
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
    if (this.#size === 0) return;
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
    const machine = this.#machine;
    const state = this.#state;
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
    const count = this.#machine.parameters.length;
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
