import { describe, expect, test } from "vitest";
import { fitLeastSquares, type ResidualModel } from "./gauss-newton.ts";

/** y = f(x; b) with derivatives by b, over data. */
function curve(
  data: readonly (readonly [x: number, y: number])[],
  parameterCount: number,
  f: (x: number, b: Float64Array) => readonly [value: number, ...slopes: number[]],
): ResidualModel {
  return {
    residualCount: data.length,
    parameterCount,
    evaluate(b, residuals, jacobian) {
      data.forEach(([x, y], i) => {
        const [value, ...slopes] = f(x, b);
        residuals[i] = y - value;
        jacobian.set(slopes, i * parameterCount);
      });
    },
  };
}

const line = curve(
  [
    [0, 1],
    [1, 3],
    [2, 2],
    [3, 4],
  ],
  2,
  (x, b) => [b[0]! + b[1]! * x, 1, x],
);

describe("nonlinear least squares", () => {
  test("a linear model is settled in one step, with its standard deviations", () => {
    const fit = fitLeastSquares(line, [100, -7]);
    expect(fit.kind).toBe("converged");
    if (fit.kind !== "converged") return;
    expect(fit.estimate[0]).toBeCloseTo(1.3, 13);
    expect(fit.estimate[1]).toBeCloseTo(0.8, 13);
    expect(fit.residualSumOfSquares).toBeCloseTo(1.8, 13);
    expect(fit.residualStandardDeviation).toBeCloseTo(Math.sqrt(0.9), 13);
    // Σ(x − x̄)² = 5, x̄ = 1.5.
    expect(fit.standardDeviations[1]).toBeCloseTo(Math.sqrt(0.9 / 5), 13);
    expect(fit.standardDeviations[0]).toBeCloseTo(Math.sqrt(0.9 * (1 / 4 + 2.25 / 5)), 13);
    expect(fit.iterations).toBeLessThanOrEqual(3);
  });

  test("an exact fit converges although its residuals are nothing, and to a parameter of 0", () => {
    const data = [0, 1, 2, 3].map((x) => [x, 5 * Math.exp(-0.3 * x)] as const);
    const fit = fitLeastSquares(
      curve(data, 3, (x, b) => [
        b[0]! * Math.exp(-b[1]! * x) + b[2]!,
        Math.exp(-b[1]! * x),
        -x * b[0]! * Math.exp(-b[1]! * x),
        1,
      ]),
      [4, 0.5, 0.3],
    );
    expect(fit.kind).toBe("converged");
    expect(fit.estimate[0]).toBeCloseTo(5, 9);
    expect(fit.estimate[1]).toBeCloseTo(0.3, 9);
    expect(fit.estimate[2]).toBeCloseTo(0, 9);
  });

  test("a start from which full steps run away converges by damping", () => {
    // Far out on the flat of an arctangent a full step overshoots to the other side, and farther.
    const far = curve([[0, 0]], 1, (_, b) => [Math.atan(b[0]!), 1 / (1 + b[0]! ** 2)]);
    const fit = fitLeastSquares(far, [3]);
    expect(fit.kind).toBe("converged");
    expect(Math.abs(fit.estimate[0]!)).toBeLessThan(1e-12);
  });

  test("parameters that the data do not tell apart are reported, not guessed", () => {
    const twins = curve(
      [
        [0, 1],
        [1, 3],
        [2, 2],
      ],
      2,
      (x, b) => [b[0]! + b[1]! + x * 0, 1, 1],
    );
    expect(fitLeastSquares(twins, [0, 0]).kind).toBe("not settled by the data");
  });

  test("a fit that may not go on says that it has not converged", () => {
    const slow = curve(
      [
        [0, 2],
        [1, 5],
        [2, 9],
      ],
      2,
      (x, b) => [b[0]! * Math.exp(b[1]! * x), Math.exp(b[1]! * x), x * b[0]! * Math.exp(b[1]! * x)],
    );
    expect(fitLeastSquares(slow, [1, 0], { iterations: 2 }).kind).toBe("not converged");
    expect(fitLeastSquares(slow, [1, 0]).kind).toBe("converged");
  });
});
