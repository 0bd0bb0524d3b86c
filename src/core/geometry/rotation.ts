/**
 * Rotations by a rotation vector w (right hand, angle |w| in rad) and their derivative.
 *
 *   R(w) = I + a [w]× + b [w]×²           a = sin θ/θ, b = (1 − cos θ)/θ², θ = |w|
 *   ∂(R(w)v)/∂w = −R(w) [v]× Jr(w)        Jr(w) = I − b [w]× + c [w]×², c = (θ − sin θ)/θ³
 *
 * Rodrigues' formula and the right Jacobian of the rotation group, textbook results (from memory; the tests hold both
 * to finite differences and to the group's laws). 3 × 3 matrices are row-major arrays of nine.
 */
export interface Rotation {
  readonly matrix: Float64Array;
  readonly rightJacobian: Float64Array;
}

/** @param into is written over and returned: a chain of joints turns thousands of points a second */
export function rotationFromVector(wx: number, wy: number, wz: number, into: Rotation = emptyRotation()): Rotation {
  const { a, b, c } = coefficients(wx * wx + wy * wy + wz * wz);
  assemble(wx, wy, wz, a, b, into.matrix);
  assemble(wx, wy, wz, -b, c, into.rightJacobian);
  return into;
}

/** Room for a rotation. */
export function emptyRotation(): Rotation {
  return { matrix: new Float64Array(9), rightJacobian: new Float64Array(9) };
}

/** R·v written into `out`. */
export function rotate(r: Float64Array, x: number, y: number, z: number, out: Float64Array): void {
  out[0] = r[0] * x + r[1] * y + r[2] * z;
  out[1] = r[3] * x + r[4] * y + r[5] * z;
  out[2] = r[6] * x + r[7] * y + r[8] * z;
}

/** ∂(R(w)v)/∂w, 3 × 3, mm per rad when v is in mm, written into `out`. */
export function rotationDerivative(
  rotation: Rotation,
  x: number,
  y: number,
  z: number,
  out = new Float64Array(9),
): Float64Array {
  const r = rotation.matrix;
  const j = rotation.rightJacobian;
  for (let row = 0; row < 9; row += 3) {
    const r0 = r[row];
    const r1 = r[row + 1];
    const r2 = r[row + 2];
    // A row of −R·[v]×: column k of [v]× is v × e_k.
    const m0 = r2 * y - r1 * z;
    const m1 = r0 * z - r2 * x;
    const m2 = r1 * x - r0 * y;
    out[row] = m0 * j[0] + m1 * j[3] + m2 * j[6];
    out[row + 1] = m0 * j[1] + m1 * j[4] + m2 * j[7];
    out[row + 2] = m0 * j[2] + m1 * j[5] + m2 * j[8];
  }
  return out;
}

export function transpose(r: Float64Array): Float64Array {
  return Float64Array.of(r[0], r[3], r[6], r[1], r[4], r[7], r[2], r[5], r[8]);
}

// Below 10⁻³ rad the closed forms lose digits by cancellation; three terms of the series are then exact to rounding.
function coefficients(squaredAngle: number): { a: number; b: number; c: number } {
  const q = squaredAngle;
  if (q < 1e-6) {
    return {
      a: 1 - (q / 6) * (1 - q / 20),
      b: 0.5 - (q / 24) * (1 - q / 30),
      c: 1 / 6 - (q / 120) * (1 - q / 42),
    };
  }
  const angle = Math.sqrt(q);
  return {
    a: Math.sin(angle) / angle,
    b: (1 - Math.cos(angle)) / q,
    c: (angle - Math.sin(angle)) / (q * angle),
  };
}

/** I + f [w]× + g [w]×² */
function assemble(x: number, y: number, z: number, f: number, g: number, out: Float64Array): void {
  out[0] = 1 - g * (y * y + z * z);
  out[1] = -f * z + g * x * y;
  out[2] = f * y + g * x * z;
  out[3] = f * z + g * x * y;
  out[4] = 1 - g * (x * x + z * z);
  out[5] = -f * x + g * y * z;
  out[6] = -f * y + g * x * z;
  out[7] = f * x + g * y * z;
  out[8] = 1 - g * (x * x + y * y);
}
