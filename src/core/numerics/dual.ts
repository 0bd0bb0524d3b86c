/**
 * A number that carries its gradient with respect to a fixed list of parameters (forward-mode differentiation: the
 * chain rule, exact to rounding). Formulas written with these functions read as formulas and yield their Jacobians.
 *
 * `gradient` has the length of the list; with length 0 only values are computed. Gradients are never changed once made.
 */
export interface Dual {
  readonly value: number;
  readonly gradient: Float64Array;
}

/** Three duals: a place or a direction. */
export interface DualVector {
  readonly x: Dual;
  readonly y: Dual;
  readonly z: Dual;
}

export function constant(value: number, size: number): Dual {
  return { value, gradient: new Float64Array(size) };
}

/** The parameter at `index` itself. */
export function parameter(value: number, index: number, size: number): Dual {
  const gradient = new Float64Array(size);
  if (index < size) gradient[index] = 1;
  return { value, gradient };
}

/** α·a + β·b */
export function combine(alpha: number, a: Dual, beta: number, b: Dual): Dual {
  const n = a.gradient.length;
  const gradient = new Float64Array(n);
  for (let i = 0; i < n; i++) gradient[i] = alpha * a.gradient[i] + beta * b.gradient[i];
  return { value: alpha * a.value + beta * b.value, gradient };
}

export function add(a: Dual, b: Dual): Dual {
  return combine(1, a, 1, b);
}

export function subtract(a: Dual, b: Dual): Dual {
  return combine(1, a, -1, b);
}

/** factor·a + offset */
export function scale(factor: number, a: Dual, offset = 0): Dual {
  const n = a.gradient.length;
  const gradient = new Float64Array(n);
  for (let i = 0; i < n; i++) gradient[i] = factor * a.gradient[i];
  return { value: factor * a.value + offset, gradient };
}

export function multiply(a: Dual, b: Dual): Dual {
  const { value, gradient } = combine(b.value, a, a.value, b);
  return { value: value / 2, gradient };
}

export function divide(a: Dual, b: Dual): Dual {
  const quotient = a.value / b.value;
  const { gradient } = combine(1 / b.value, a, -quotient / b.value, b);
  return { value: quotient, gradient };
}

/** f(a), given its value and slope at a. */
export function compose(value: number, slope: number, a: Dual): Dual {
  const n = a.gradient.length;
  const gradient = new Float64Array(n);
  for (let i = 0; i < n; i++) gradient[i] = slope * a.gradient[i];
  return { value, gradient };
}

export function squareRoot(a: Dual): Dual {
  const root = Math.sqrt(a.value);
  return compose(root, 0.5 / root, a);
}

export function sine(a: Dual): Dual {
  return compose(Math.sin(a.value), Math.cos(a.value), a);
}

export function cosine(a: Dual): Dual {
  return compose(Math.cos(a.value), -Math.sin(a.value), a);
}

export function tangent(a: Dual): Dual {
  const t = Math.tan(a.value);
  return compose(t, 1 + t * t, a);
}

/** Σ factors[i]·terms[i] + offset */
export function weightedSum(factors: readonly number[], terms: readonly Dual[], offset = 0): Dual {
  const n = terms[0].gradient.length;
  const gradient = new Float64Array(n);
  let value = offset;
  for (let k = 0; k < terms.length; k++) {
    const factor = factors[k];
    const source = terms[k].gradient;
    value += factor * terms[k].value;
    for (let i = 0; i < n; i++) gradient[i] += factor * source[i];
  }
  return { value, gradient };
}

export function dot(a: DualVector, b: DualVector): Dual {
  return add(add(multiply(a.x, b.x), multiply(a.y, b.y)), multiply(a.z, b.z));
}

/** The component of a along the fixed direction (ex, ey, ez). */
export function along(a: DualVector, ex: number, ey: number, ez: number): Dual {
  return weightedSum([ex, ey, ez], [a.x, a.y, a.z]);
}

export function subtractVectors(a: DualVector, b: DualVector): DualVector {
  return { x: subtract(a.x, b.x), y: subtract(a.y, b.y), z: subtract(a.z, b.z) };
}

export function distance(a: DualVector, b: DualVector): Dual {
  const d = subtractVectors(a, b);
  return squareRoot(dot(d, d));
}
