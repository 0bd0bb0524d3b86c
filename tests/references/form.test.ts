import { test } from "vitest";
import { leastSquaresCircle, linearisedCircle } from "../../src/core/geometry/circle-fit.ts";
import { minimumZonePlane } from "../../src/core/geometry/flatness.ts";
import { endPointLine, leastSquaresLine } from "../../src/core/geometry/line-fit.ts";
import { minimumZoneCircle } from "../../src/core/geometry/minimum-zone-circle.ts";
import { leastSquaresPlane } from "../../src/core/geometry/plane-fit.ts";
import { diagonalsOfSkewedRectangle, skewFromDiagonalsRad } from "../../src/core/geometry/skewed-rectangle.ts";
import { minimumZoneLine } from "../../src/core/geometry/straightness.ts";
import { openReference } from "./reference.ts";

const form = openReference("[ISO 230-1]");

// Heights in µm over places in mm. The exact widths were found by trying every touching line or plane in rational
// arithmetic, and again by linear programming.

test("straightness of a profile of eleven points", () => {
  const x = [0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000];
  const z = [0, 3, 7, 8, 6, 9, 2, -3, -1, -2, 4];
  const zone = minimumZoneLine(x, z)!;
  const fitted = leastSquaresLine(x, z)!;
  const status = "independent program";
  form.digits({
    what: "straightness, minimum zone, µm",
    pairs: [[78 / 7, zone.width]],
    status,
    atLeast: 14,
    summary: "78/7",
  });
  form.digits({
    what: "slope of the minimum zone, µm/mm",
    pairs: [[-3 / 700, zone.slope]],
    status,
    atLeast: 13,
    summary: "−3/700",
  });
  form.number({ what: "straightness, least squares, µm", expected: "11.272727", got: fitted.width, status });
  form.number({ what: "least-squares slope, µm/mm", expected: "-0.004545454545", got: fitted.slope, status });
  form.number({
    what: "straightness about the end points, µm",
    expected: "12.8",
    got: endPointLine(x, z)!.width,
    status,
  });
});

function grid(heights: readonly (readonly number[])[], pitchX: number, pitchY: number) {
  const points = heights.flatMap((row, i) => row.map((z, j) => [i * pitchX, j * pitchY, z] as const));
  return [points.map(([x]) => x), points.map(([, y]) => y), points.map(([, , z]) => z)] as const;
}

test("flatness of two grids", () => {
  const status = "independent program";
  const three = grid(
    [
      [2, -1, 0],
      [3, 5, 1],
      [-2, 0, 4],
    ],
    100,
    100,
  );
  form.number({
    what: "flatness of 3 × 3, minimum zone, µm",
    expected: "6.000000000000",
    got: minimumZonePlane(...three)!.width,
    status,
  });
  form.number({
    what: "flatness of 3 × 3, least squares, µm",
    expected: "6.833333333333",
    got: leastSquaresPlane(...three)!.width,
    status,
  });
  const four = grid(
    [
      [0, 4, 7, 3],
      [-3, 1, 6, 2],
      [5, 8, 2, -1],
      [1, -2, -4, 6],
    ],
    50,
    80,
  );
  form.number({
    what: "flatness of 4 × 4, minimum zone, µm",
    expected: "11.500000000000",
    got: minimumZonePlane(...four)!.width,
    status,
  });
  form.number({
    what: "flatness of 4 × 4, least squares, µm",
    expected: "11.750000000000",
    got: leastSquaresPlane(...four)!.width,
    status,
  });
});

const circles = openReference("[Gander Golub Strebel]");

test("circles through six points of a short arc", () => {
  const x = [1, 2, 5, 7, 9, 3];
  const y = [7, 6, 8, 7, 5, 7];
  const fitted = leastSquaresCircle(x, y)!;
  const squares = fitted.deviations.reduce((sum, deviation) => sum + deviation ** 2, 0);
  circles.number({ what: "geometric fit: centre x", expected: "4.7398", got: fitted.centreX, status: "from memory" });
  circles.number({ what: "geometric fit: centre y", expected: "2.9835", got: fitted.centreY, status: "from memory" });
  circles.number({ what: "geometric fit: radius", expected: "4.7142", got: fitted.radius, status: "from memory" });
  // More digits by Newton's method on the condition of the least sum, in arithmetic of 40 digits.
  circles.number({
    what: "geometric fit: centre x, more digits",
    expected: "4.739782410906",
    got: fitted.centreX,
    status: "independent program",
  });
  circles.number({
    what: "geometric fit: centre y, more digits",
    expected: "2.983532699292",
    got: fitted.centreY,
    status: "independent program",
  });
  circles.number({
    what: "geometric fit: radius, more digits",
    expected: "4.714226037792",
    got: fitted.radius,
    status: "independent program",
  });
  circles.number({
    what: "geometric fit: Σ of squared distances",
    expected: "1.227599078",
    got: squares,
    status: "independent program",
  });
  const linear = linearisedCircle(x, y)!;
  circles.number({
    what: "linearised fit: centre x",
    expected: "4.742331288",
    got: linear.centreX,
    status: "independent program",
  });
  circles.number({
    what: "linearised fit: centre y",
    expected: "3.835122699",
    got: linear.centreY,
    status: "independent program",
  });
  circles.number({
    what: "linearised fit: radius",
    expected: "4.108761522",
    got: linear.radius,
    status: "independent program",
  });
  const zone = minimumZoneCircle(x, y)!;
  circles.digits({
    what: "minimum zone: centre",
    pairs: [
      [105 / 22, zone.centreX],
      [9 / 22, zone.centreY],
    ],
    status: "independent program",
    atLeast: 10,
    summary: "(105/22, 9/22)",
  });
  circles.number({
    what: "minimum zone: separation",
    expected: "1.3536150616",
    got: zone.width,
    status: "independent program",
  });
});

const rhomb = openReference("[Skewed rectangle]");

test("diagonals of a rectangle that is out of square", () => {
  const [a, b, skew] = [500, 400, 1e-3];
  const diagonals = diagonalsOfSkewedRectangle(a, b, skew);
  rhomb.number({
    what: "longer diagonal of 500 × 400 out by 10⁻³, mm",
    expected: "640.6246950698",
    got: diagonals.fromOrigin,
    status: "closed form",
  });
  rhomb.number({
    what: "shorter diagonal, mm",
    expected: "640.0000000521",
    got: diagonals.across,
    status: "closed form",
  });
  rhomb.number({
    what: "skew from both diagonals",
    expected: "0.001000000000",
    got: skewFromDiagonalsRad(a, b, diagonals)!,
    status: "closed form",
  });
  const difference = diagonals.fromOrigin ** 2 - diagonals.across ** 2;
  rhomb.digits({
    what: "D₁² − D₂² against 4ab·sin γ",
    pairs: [[4 * a * b * Math.sin(skew), difference]],
    status: "closed form",
    atLeast: 11,
    summary: "800 mm²",
  });
});
