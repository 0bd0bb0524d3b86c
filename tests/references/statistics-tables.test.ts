import { test } from "vitest";
import { chiSquareQuantile, fQuantile, studentQuantile } from "../../src/core/numerics/distributions.ts";
import { coverageFactor } from "../../src/core/uncertainty/coverage.ts";
import { openReference } from "./reference.ts";

const handbook = openReference("[NIST Handbook §1.3.6.7]");
const endless = Number.POSITIVE_INFINITY;

test("quantiles of Student's t, one-sided", () => {
  const rows = [
    [5, "2.015", "2.571", "3.365", "4.032"],
    [10, "1.812", "2.228", "2.764", "3.169"],
    [30, "1.697", "2.042", "2.457", "2.750"],
    [endless, "1.645", "1.960", "2.326", "2.576"],
  ] as const;
  for (const [freedom, ...values] of rows) {
    [0.95, 0.975, 0.99, 0.995].forEach((p, i) => {
      const what = `t, ν = ${freedom === endless ? "∞" : freedom}, p = ${p}`;
      handbook.number({ what, expected: values[i]!, got: studentQuantile(p, freedom), status: "published" });
    });
  }
});

test("quantiles of χ² and F", () => {
  const squares = [
    [1, "3.841", "0.004", "6.635"],
    [2, "5.991", "0.103", "9.210"],
    [3, "7.815", "0.352", "11.345"],
    [5, "11.070", "1.145", "15.086"],
    [10, "18.307", "3.940", "23.209"],
    [20, "31.410", "10.851", "37.566"],
    [30, "43.773", "18.493", "50.892"],
  ] as const;
  for (const [freedom, ...values] of squares) {
    [0.95, 0.05, 0.99].forEach((p, i) => {
      const what = `χ², ν = ${freedom}, p = ${p}`;
      handbook.number({
        what,
        expected: values[i]!,
        got: chiSquareQuantile(p, freedom),
        status: "independent program",
      });
    });
  }
  const ratios = [
    [0.95, 1, 5, "6.608"],
    [0.95, 1, 10, "4.965"],
    [0.95, 2, 5, "5.786"],
    [0.95, 2, 10, "4.103"],
    [0.95, 2, 20, "3.493"],
    [0.95, 3, 10, "3.708"],
    [0.95, 5, 5, "5.050"],
    [0.95, 5, 10, "3.326"],
    [0.95, 10, 10, "2.978"],
    [0.99, 1, 10, "10.044"],
    [0.99, 2, 10, "7.559"],
    [0.99, 5, 10, "5.636"],
  ] as const;
  for (const [p, above, below, expected] of ratios) {
    handbook.number({
      what: `F, ν = ${above} and ${below}, p = ${p}`,
      expected,
      got: fQuantile(p, above, below),
      status: "independent program",
    });
  }
});

const factors = openReference("[GUM Table G.2]");

test("coverage factors, two-sided", () => {
  const rows = [
    [1, "12.71", "63.66", "235.80"],
    [2, "4.30", "9.92", "19.21"],
    [5, "2.57", "4.03", "5.51"],
    [10, "2.23", "3.17", "3.96"],
    [20, "2.09", "2.85", "3.42"],
    [50, "2.01", "2.68", "3.16"],
  ] as const;
  for (const [freedom, ...values] of rows) {
    [95, 99, 99.73].forEach((p, i) => {
      // The table's 99.73 % is that of three standard deviations, which has more digits.
      const probability = p === 99.73 ? 0.9973002 : p / 100;
      factors.number({
        what: `k for ${p} %, ν = ${freedom}`,
        expected: values[i]!,
        got: coverageFactor(probability, freedom),
        status: "from memory",
      });
    });
  }
});
