import { expect, test } from "vitest";
import { normalPdf } from "./distributions.ts";
import { integrate } from "./quadrature.ts";

test("one panel is exact for a polynomial of degree 31, and not for degree 32", () => {
  expect(Math.abs(integrate((x) => 32 * x ** 31, 0, 1, 1) - 1)).toBeLessThan(1e-14);
  const miss = Math.abs(integrate((x) => 33 * x ** 32, -1, 1, 1) - 2);
  expect(miss).toBeGreaterThan(1e-10);
});

test("panels of one standard deviation integrate a normal density to all its digits", () => {
  expect(integrate(normalPdf, -9, 9, 18)).toBeCloseTo(1, 14);
});

test("an empty range holds nothing and a reversed one counts negative", () => {
  expect(integrate(() => 1, 2, 2, 3)).toBe(0);
  expect(integrate(() => 1, 2, 0, 3)).toBeCloseTo(-2, 14);
});
