import { invariant } from "../base/invariant.ts";

/**
 * ∫ f over [from, to] by Gauss–Legendre sums of 16 points on equal panels.
 *
 * Exact for polynomials up to degree 31 on each panel; choose the panels no wider than the narrowest feature of f. The
 * nodes are the zeros of the Legendre polynomial, found by Newton steps, closed form.
 */
export function integrate(f: (x: number) => number, from: number, to: number, panels: number): number {
  invariant(Number.isInteger(panels) && panels > 0, "an integral is taken over at least one panel");
  const half = (to - from) / (2 * panels);
  let sum = 0;
  for (let panel = 0; panel < panels; panel++) {
    const centre = from + (2 * panel + 1) * half;
    for (const { node, weight } of rule) sum += weight * (f(centre - node * half) + f(centre + node * half));
  }
  return sum * half;
}

const points = 16;

/** The positive nodes; the rule is symmetric. */
const rule = Array.from({ length: points / 2 }, (_, i) => {
  let x = Math.cos((Math.PI * (i + 0.75)) / (points + 0.5));
  for (let step = 0; step < 8; step++) {
    const { value, slope } = legendre(x);
    x -= value / slope;
  }
  return { node: x, weight: 2 / ((1 - x * x) * legendre(x).slope ** 2) };
});

function legendre(x: number): { value: number; slope: number } {
  let before = 1;
  let value = x;
  for (let degree = 2; degree <= points; degree++) {
    const next = ((2 * degree - 1) * x * value - (degree - 1) * before) / degree;
    before = value;
    value = next;
  }
  return { value, slope: (points * (x * value - before)) / (x * x - 1) };
}
