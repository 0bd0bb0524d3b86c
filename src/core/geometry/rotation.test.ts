import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rotate, rotationDerivative, rotationFromVector, transpose } from "./rotation.ts";

const seed = { seed: 20250101, numRuns: 300 };
const component = fc.double({ min: -1.5, max: 1.5, noNaN: true });
/** Turns of all sizes: the closed forms and the series below 10⁻³ rad. */
const vector = fc
  .tuple(component, component, component, fc.constantFrom(1, 1e-2, 1e-3, 1e-5, 0))
  .map(([x, y, z, size]) => [size * x, size * y, size * z] as const);
const point = fc.tuple(component, component, component);

describe("a rotation by a vector", () => {
  test("is orthogonal, keeps volume, and its transpose turns back", () => {
    fc.assert(
      fc.property(vector, (w) => {
        const r = rotationFromVector(...w).matrix;
        const identity = product(r, transpose(r));
        for (let i = 0; i < 9; i++) expect(identity[i]).toBeCloseTo(i % 4 === 0 ? 1 : 0, 13);
        expect(determinant(r)).toBeCloseTo(1, 13);
        const back = rotationFromVector(-w[0], -w[1], -w[2]).matrix;
        for (let i = 0; i < 9; i++) expect(back[i]).toBeCloseTo(transpose(r)[i], 14);
      }),
      seed,
    );
  });

  test("leaves its own axis, and turns by the angle |w|: trace = 1 + 2 cos |w|", () => {
    fc.assert(
      fc.property(vector, (w) => {
        const r = rotationFromVector(...w).matrix;
        const turned = apply(r, w);
        for (let i = 0; i < 3; i++) expect(turned[i]).toBeCloseTo(w[i], 13);
        expect(r[0] + r[4] + r[8]).toBeCloseTo(1 + 2 * Math.cos(Math.hypot(...w)), 13);
      }),
      seed,
    );
  });

  test("twice by w is once by 2w", () => {
    fc.assert(
      fc.property(vector, (w) => {
        const once = rotationFromVector(...w).matrix;
        const twice = rotationFromVector(2 * w[0], 2 * w[1], 2 * w[2]).matrix;
        const composed = product(once, once);
        for (let i = 0; i < 9; i++) expect(composed[i]).toBeCloseTo(twice[i], 12);
      }),
      seed,
    );
  });

  test("by 90° carries X to Y about Z, Y to Z about X and Z to X about Y: the right hand", () => {
    const quarter = Math.PI / 2;
    close(apply(rotationFromVector(0, 0, quarter).matrix, [1, 0, 0]), [0, 1, 0], 15);
    close(apply(rotationFromVector(quarter, 0, 0).matrix, [0, 1, 0]), [0, 0, 1], 15);
    close(apply(rotationFromVector(0, quarter, 0).matrix, [0, 0, 1]), [1, 0, 0], 15);
  });

  test("has the same value on both sides of the change from series to closed form", () => {
    const below = rotationFromVector(0, 0, 1e-3 * (1 - 1e-12));
    const above = rotationFromVector(0, 0, 1e-3 * (1 + 1e-12));
    for (let i = 0; i < 9; i++) {
      expect(below.matrix[i]).toBeCloseTo(above.matrix[i], 13);
      expect(below.rightJacobian[i]).toBeCloseTo(above.rightJacobian[i], 9);
    }
  });
});

describe("the derivative of a rotated point", () => {
  test("is what central differences of the rotation give", () => {
    fc.assert(
      fc.property(vector, point, (w, p) => {
        const derivative = rotationDerivative(rotationFromVector(...w), ...p);
        const step = 1e-5;
        for (let k = 0; k < 3; k++) {
          const moved = (by: number) => w.map((c, i) => (i === k ? c + by : c)) as [number, number, number];
          const up = apply(rotationFromVector(...moved(step)).matrix, p);
          const down = apply(rotationFromVector(...moved(-step)).matrix, p);
          for (let row = 0; row < 3; row++) {
            expect(Math.abs(derivative[3 * row + k] - (up[row] - down[row]) / (2 * step))).toBeLessThan(2e-9);
          }
        }
      }),
      seed,
    );
  });

  test("is the cross product e × p at no rotation", () => {
    const d = rotationDerivative(rotationFromVector(0, 0, 0), 1, 2, 3);
    close(Array.from(d), [0, 3, -2, -3, 0, 1, 2, -1, 0], 15);
  });
});

function apply(r: Float64Array, p: readonly number[]): number[] {
  const out = new Float64Array(3);
  rotate(r, p[0], p[1], p[2], out);
  return Array.from(out);
}

function product(a: Float64Array, b: Float64Array): number[] {
  return Array.from({ length: 9 }, (_, i) => {
    const row = 3 * Math.floor(i / 3);
    return a[row] * b[i % 3] + a[row + 1] * b[3 + (i % 3)] + a[row + 2] * b[6 + (i % 3)];
  });
}

function determinant(m: Float64Array): number {
  return m[0] * (m[4] * m[8] - m[5] * m[7]) - m[1] * (m[3] * m[8] - m[5] * m[6]) + m[2] * (m[3] * m[7] - m[4] * m[6]);
}

function close(found: readonly number[], expected: readonly number[], digits: number): void {
  found.forEach((value, i) => {
    expect(value).toBeCloseTo(expected[i], digits);
  });
}
