import { test } from "vitest";
import { circularDeviation, radialDeviation } from "../../src/core/standards/iso230-4.ts";
import { openReference } from "./reference.ts";

const source = openReference("[ISO 230-4 §3]");

/** 360 points of a circle of radius 100 mm about (250, 80), each moved by a machine that is out in one way. */
function path(move: (x: number, y: number) => readonly [number, number]) {
  const points = Array.from({ length: 360 }, (_, i) => {
    const angle = (2 * Math.PI * i) / 360;
    const [x, y] = move(100 * Math.cos(angle), 100 * Math.sin(angle));
    return [250 + x, 80 + y] as const;
  });
  return { xMm: points.map(([x]) => x), yMm: points.map(([, y]) => y) };
}

// An ellipse with half axes R + e and R − e has a radial separation of 2e about its centre, for a skew γ as for a
// difference of scales ε: e = R·γ/2 or R·ε/2, to first order. The second order is 10⁻⁴ of it here.
const firstOrder = { within: 2e-5, because: "first order" } as const;

test("squareness of 1 mm/m on a circle of 100 mm", () => {
  const skewed = path((x, y) => [x + 1e-3 * y, y]);
  const deviation = circularDeviation(skewed)!;
  const radial = radialDeviation(skewed, 100, [250, 80]);
  source.number({
    what: "skew 10⁻³: G, minimum zone, mm",
    expected: "0.1000",
    got: deviation.minimumZoneMm,
    status: "closed form",
    ...firstOrder,
  });
  source.number({
    what: "skew 10⁻³: G, least squares, mm",
    expected: "0.1000",
    got: deviation.leastSquaresMm,
    status: "closed form",
    ...firstOrder,
  });
  source.number({
    what: "skew 10⁻³: largest radial deviation, mm",
    expected: "0.0500",
    got: radial.largestMm,
    status: "closed form",
    within: 5e-5,
    because: "first order",
  });
  source.number({
    what: "skew 10⁻³: smallest radial deviation, mm",
    expected: "-0.0500",
    got: radial.smallestMm,
    status: "closed form",
    within: 5e-5,
    because: "first order",
  });
});

test("a difference of scales of 1 mm/m on a circle of 100 mm", () => {
  const deviation = circularDeviation(path((x, y) => [x * 1.001, y]))!;
  source.number({
    what: "scales apart by 10⁻³: G, minimum zone, mm",
    expected: "0.1000",
    got: deviation.minimumZoneMm,
    status: "closed form",
    ...firstOrder,
  });
});

test("play on one axis leaves a path that is out by its size", () => {
  // Lost motion of 0.04 mm on X, shared alike by both sides: the half with y > 0 is shifted one way, the other the other.
  // At either end of the diameter along X the path jumps from R − 0.02 to R + 0.02.
  const deviation = circularDeviation(path((x, y) => [x + (y > 0 ? -0.02 : 0.02), y]))!;
  source.number({
    what: "lost motion of 0.04 mm on one axis: G, minimum zone, mm",
    expected: "0.0400",
    got: deviation.minimumZoneMm,
    status: "closed form",
  });
});
