import fc from "fast-check";
import { expect, test } from "vitest";
import { diagonalsOfSkewedRectangle, skewFromDiagonalsRad } from "./skewed-rectangle.ts";

test("the skew comes back from its diagonals, whatever its size", () => {
  const side = fc.double({ min: 50, max: 2000, noNaN: true });
  // A plain difference of diagonals would be out by the square of the skew; half a radian shows that.
  fc.assert(
    fc.property(side, side, fc.double({ min: -0.5, max: 0.5, noNaN: true }), (a, b, skew) => {
      expect(skewFromDiagonalsRad(a, b, diagonalsOfSkewedRectangle(a, b, skew))).toBeCloseTo(skew, 11);
    }),
    { seed: 7 },
  );
});

test("diagonals that no such parallelogram has settle no skew", () => {
  expect(skewFromDiagonalsRad(100, 1, { fromOrigin: 300, across: 10 })).toBeUndefined();
});
