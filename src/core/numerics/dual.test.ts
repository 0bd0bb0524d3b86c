import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  add,
  along,
  combine,
  compose,
  constant,
  cosine,
  type Dual,
  type DualVector,
  distance,
  divide,
  dot,
  multiply,
  parameter,
  scale,
  sine,
  squareRoot,
  subtract,
  subtractVectors,
  tangent,
  weightedSum,
} from "./dual.ts";

const seed = { seed: 20250102, numRuns: 200 };
/** Six numbers away from 0, so that quotients and roots stay tame. */
const numbers = fc.array(fc.double({ min: 0.3, max: 1.2, noNaN: true }), { minLength: 6, maxLength: 6 });

const formulas: Readonly<Record<string, (p: readonly Dual[]) => Dual>> = {
  add: ([a, b]) => add(a, b),
  subtract: ([a, b]) => subtract(a, b),
  combine: ([a, b]) => combine(2, a, -3, b),
  scale: ([a]) => scale(-2.5, a, 7),
  multiply: ([a, b]) => multiply(a, b),
  divide: ([a, b]) => divide(a, b),
  compose: ([a]) => compose(a.value ** 3, 3 * a.value ** 2, a),
  squareRoot: ([a]) => squareRoot(a),
  sine: ([a]) => sine(a),
  cosine: ([a]) => cosine(a),
  tangent: ([a]) => tangent(a),
  weightedSum: ([a, b, c]) => weightedSum([1, -2, 0.5], [a, b, c], 4),
  dot: (p) => dot(...vectors(p)),
  along: (p) => along(vectors(p)[0], 0.6, -0.8, 0.1),
  subtractVectors: (p) => subtractVectors(...vectors(p)).y,
  "distance of two places": (p) => distance(vectors(p)[0], shifted(vectors(p)[1])),
  "all of them on one another": (p) =>
    divide(
      multiply(sine(p[0]), squareRoot(add(p[1], multiply(p[2], p[2])))),
      subtract(tangent(p[3]), scale(-2, cosine(p[4]), -1)),
    ),
};

describe("numbers that carry their gradient", () => {
  for (const [name, formula] of Object.entries(formulas)) {
    test(`${name}: the gradient is that of central differences, and the value that of plain numbers`, () => {
      fc.assert(
        fc.property(numbers, (at) => {
          const found = formula(at.map((value, i) => parameter(value, i, at.length)));
          const bare = (values: readonly number[]) => formula(values.map((value) => constant(value, 0)));
          expect(bare(at).value).toBe(found.value);
          expect(bare(at).gradient).toHaveLength(0);
          const step = 1e-5;
          at.forEach((_, i) => {
            const moved = (by: number) => bare(at.map((value, k) => (k === i ? value + by : value))).value;
            const slope = (moved(step) - moved(-step)) / (2 * step);
            expect(Math.abs(found.gradient[i] - slope)).toBeLessThan(1e-7 * Math.max(1, Math.abs(slope)));
          });
        }),
        seed,
      );
    });
  }

  test("products and quotients have the values of ordinary arithmetic", () => {
    fc.assert(
      fc.property(numbers, ([a, b]) => {
        const [x, y] = [constant(a, 0), constant(b, 0)];
        expect(multiply(x, y).value).toBeCloseTo(a * b, 14);
        expect(divide(x, y).value).toBe(a / b);
        expect(distance({ x, y, z: x }, { x: y, y: x, z: x }).value).toBeCloseTo(Math.SQRT2 * Math.abs(a - b), 14);
      }),
      seed,
    );
  });

  test("nothing changes the gradient of what it is made from", () => {
    const a = parameter(2, 0, 2);
    const b = parameter(3, 1, 2);
    divide(multiply(a, b), add(a, sine(b)));
    expect(Array.from(a.gradient)).toEqual([1, 0]);
    expect(Array.from(b.gradient)).toEqual([0, 1]);
  });

  test("a parameter beyond the list has a gradient of nothing", () => {
    expect(Array.from(parameter(5, 3, 2).gradient)).toEqual([0, 0]);
  });
});

function vectors(p: readonly Dual[]): [DualVector, DualVector] {
  return [
    { x: p[0], y: p[1], z: p[2] },
    { x: p[3], y: p[4], z: p[5] },
  ];
}

/** Two places that nearly coincide have no smooth distance. */
function shifted(v: DualVector): DualVector {
  return { ...v, z: scale(1, v.z, 3) };
}
