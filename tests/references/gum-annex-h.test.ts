import { expect, test } from "vitest";
import { triangularise } from "../../src/core/numerics/householder.ts";
import { covarianceFromTriangle, solveUpper } from "../../src/core/numerics/triangular.ts";
import { coverageFactor, effectiveDegreesOfFreedom } from "../../src/core/uncertainty/coverage.ts";
import { propagate, propagateCovariance, type UncertainInput } from "../../src/core/uncertainty/propagation.ts";
import { correlationOf, evaluateTogether } from "../../src/core/uncertainty/type-a.ts";
import { openReference } from "./reference.ts";

// The printed results are rounded on the way; where that shows, the tolerance says so. Digits beyond the print come
// from an independent program that does not round.

const endGauge = openReference("[GUM H.1]");

/** l = l_s + d − l_s·(δα·θ + α_s·δθ), d and θ each a sum of parts; lengths in nm. */
function endGaugeModel(values: readonly number[]): number {
  const [ls, d, d1, d2, alpha, dAlpha, dTheta, theta, swing] = values as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return ls + d + d1 + d2 - ls * (dAlpha * (theta + swing) + alpha * dTheta);
}

const endGaugeInputs: readonly UncertainInput[] = [
  { value: 50_000_623, standardUncertainty: 25, degreesOfFreedom: 18 },
  { value: 215, standardUncertainty: 5.8, degreesOfFreedom: 24 },
  { value: 0, standardUncertainty: 3.9, degreesOfFreedom: 5 },
  { value: 0, standardUncertainty: 6.7, degreesOfFreedom: 8 },
  { value: 11.5e-6, standardUncertainty: 2e-6 / Math.sqrt(3) },
  { value: 0, standardUncertainty: 1e-6 / Math.sqrt(3), degreesOfFreedom: 50 },
  { value: 0, standardUncertainty: 0.05 / Math.sqrt(3), degreesOfFreedom: 2 },
  { value: -0.1, standardUncertainty: 0.2 },
  { value: 0, standardUncertainty: 0.5 / Math.sqrt(2) },
];

test("H.1, end gauge: first order", () => {
  const law = propagate(endGaugeModel, endGaugeInputs);
  const d = endGaugeInputs.slice(1, 4).map((input) => ({
    standardUncertainty: input.standardUncertainty,
    degreesOfFreedom: input.degreesOfFreedom!,
  }));
  const uOfD = Math.hypot(...d.map((part) => part.standardUncertainty));
  const k = coverageFactor(0.99, Math.floor(law.degreesOfFreedom!));
  endGauge.number({ what: "length l, nm", expected: "50000838", got: law.value, status: "published" });
  endGauge.number({ what: "u(d), nm", expected: "9.7", got: uOfD, status: "published" });
  endGauge.number({
    what: "degrees of freedom of d",
    expected: "25.6",
    got: effectiveDegreesOfFreedom(d),
    status: "published",
    within: 0.2,
    because: "the source rounds u(d) first",
  });
  endGauge.number({
    what: "part of the standard's length, nm",
    expected: "25",
    got: law.contributions[0]!,
    status: "published",
  });
  endGauge.number({ what: "part of δα, nm", expected: "2.9", got: law.contributions[5]!, status: "published" });
  endGauge.number({ what: "part of δθ, nm", expected: "16.6", got: law.contributions[6]!, status: "published" });
  endGauge.number({ what: "u_c(l), nm", expected: "32", got: law.standardUncertainty, status: "published" });
  endGauge.number({
    what: "u_c(l), nm, unrounded",
    expected: "31.66388",
    got: law.standardUncertainty,
    status: "independent program",
  });
  endGauge.number({
    what: "effective degrees of freedom",
    expected: "16.7",
    got: law.degreesOfFreedom!,
    status: "published",
    within: 0.06,
    because: "cut, not rounded",
  });
  endGauge.number({ what: "t for 99 % at 16", expected: "2.92", got: k, status: "published" });
  endGauge.number({
    what: "U for 99 %, nm",
    expected: "93",
    got: k * law.standardUncertainty,
    status: "published",
    within: 0.6,
    because: "the source multiplies 32 by 2.92",
  });
});

test("H.1, end gauge: second order", () => {
  const second = propagate(endGaugeModel, endGaugeInputs, { secondOrder: true });
  endGauge.number({
    what: "u_c(l) with second-order terms, nm",
    expected: "34",
    got: second.standardUncertainty,
    status: "published",
  });
  endGauge.number({
    what: "u_c(l) with second-order terms, nm, unrounded",
    expected: "33.80655",
    got: second.standardUncertainty,
    status: "closed form",
  });
});

const impedance = openReference("[GUM H.2]");
const voltage = [5.007, 4.994, 5.005, 4.99, 4.999];
const current = [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3];
const phase = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
const impedanceModels = [
  (x: readonly number[]) => (x[0]! / x[1]!) * Math.cos(x[2]!),
  (x: readonly number[]) => (x[0]! / x[1]!) * Math.sin(x[2]!),
  (x: readonly number[]) => x[0]! / x[1]!,
];
const root = (covariance: Float64Array, i: number) => Math.sqrt(covariance[i * 3 + i]!);

test("H.2, resistance and reactance from quantities read together", () => {
  const inputs = evaluateTogether([voltage, current, phase]);
  const printedMeans = ["4.9990", "0.0196610", "1.04446"];
  const printedU = ["0.0032", "0.0000095", "0.00075"];
  ["voltage, V", "current, A", "phase, rad"].forEach((what, i) => {
    impedance.number({ what, expected: printedMeans[i]!, got: inputs.means[i]!, status: "published" });
    impedance.number({
      what: `u of ${what}`,
      expected: printedU[i]!,
      got: root(inputs.covariance, i),
      status: "published",
    });
  });
  impedance.number({
    what: "r(V, I)",
    expected: "-0.36",
    got: correlationOf(inputs.covariance, 3, 0, 1),
    status: "published",
  });
  impedance.number({
    what: "r(V, φ)",
    expected: "0.86",
    got: correlationOf(inputs.covariance, 3, 0, 2),
    status: "published",
  });
  impedance.number({
    what: "r(I, φ)",
    expected: "-0.65",
    got: correlationOf(inputs.covariance, 3, 1, 2),
    status: "published",
  });

  const result = propagateCovariance(impedanceModels, inputs.means, inputs.covariance);
  impedance.number({ what: "R, Ω", expected: "127.732", got: result.values[0]!, status: "published" });
  impedance.number({ what: "u(R), Ω", expected: "0.071", got: root(result.covariance, 0), status: "published" });
  impedance.number({ what: "X, Ω", expected: "219.847", got: result.values[1]!, status: "published" });
  impedance.number({
    what: "u(X), Ω",
    expected: "0.295",
    got: root(result.covariance, 1),
    status: "published",
    within: 0.001,
    because: "the source's second approach prints the same digits",
  });
  impedance.number({ what: "Z, Ω", expected: "254.260", got: result.values[2]!, status: "published" });
  impedance.number({ what: "u(Z), Ω", expected: "0.236", got: root(result.covariance, 2), status: "published" });
  impedance.number({
    what: "r(R, X)",
    expected: "-0.588",
    got: correlationOf(result.covariance, 3, 0, 1),
    status: "published",
  });
  impedance.number({
    what: "r(R, Z)",
    expected: "-0.485",
    got: correlationOf(result.covariance, 3, 0, 2),
    status: "published",
  });
  impedance.number({
    what: "r(X, Z)",
    expected: "0.993",
    got: correlationOf(result.covariance, 3, 1, 2),
    status: "published",
  });
  impedance.number({
    what: "u(R), Ω, unrounded",
    expected: "0.0710714",
    got: root(result.covariance, 0),
    status: "independent program",
  });
  impedance.number({
    what: "u(X), Ω, unrounded",
    expected: "0.2955817",
    got: root(result.covariance, 1),
    status: "independent program",
  });
  impedance.number({
    what: "u(Z), Ω, unrounded",
    expected: "0.2363361",
    got: root(result.covariance, 2),
    status: "independent program",
  });
});

test("H.2, second approach: the results of each set, then their means", () => {
  const sets = voltage.map((v, k) => [v, current[k]!, phase[k]!]);
  const means = evaluateTogether(impedanceModels.map((model) => sets.map(model)));
  const expected = [
    ["127.731630", "0.0712735"],
    ["219.846895", "0.2954891"],
    ["254.260050", "0.2362475"],
  ] as const;
  ["R", "X", "Z"].forEach((what, i) => {
    impedance.number({
      what: `${what} as a mean of sets, Ω`,
      expected: expected[i]![0],
      got: means.means[i]!,
      status: "independent program",
    });
    impedance.number({
      what: `u(${what}) as a mean of sets, Ω`,
      expected: expected[i]![1],
      got: root(means.covariance, i),
      status: "independent program",
    });
  });
});

test("H.2, the same with correlation ignored, which the source shows to be wrong", () => {
  const inputs = evaluateTogether([voltage, current, phase]);
  const independent = inputs.covariance.map((value, at) => (at % 4 === 0 ? value : 0));
  const result = propagateCovariance(impedanceModels, inputs.means, independent);
  ["0.195", "0.201", "0.204"].forEach((expected, i) => {
    impedance.number({
      what: `u(${"RXZ"[i]}), correlation ignored, Ω`,
      expected,
      got: root(result.covariance, i),
      status: "from memory",
    });
  });
  const named = propagate(
    impedanceModels[0]!,
    inputs.means.map((value, i) => ({ value, standardUncertainty: root(inputs.covariance, i) })),
    { correlation: (i, j) => correlationOf(inputs.covariance, 3, i, j) },
  );
  expect(named.standardUncertainty).toBeCloseTo(0.0710714, 6);
});

const thermometer = openReference("[GUM H.3]");

test("H.3, calibration line of a thermometer", () => {
  const temperature = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
  const correction = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
  const rows = Float64Array.from(temperature.flatMap((t, k) => [1, t - 20, correction[k]!]));
  triangularise(rows, temperature.length, 3);
  const [y1, y2] = solveUpper(rows, 2, 3, [rows[2]!, rows[5]!]) as unknown as [number, number];
  const squares = rows[8]! ** 2;
  const s = Math.sqrt(squares / 9);
  const covariance = covarianceFromTriangle(rows, 2, 3).map((value) => value * s * s);
  const u1 = Math.sqrt(covariance[0]!);
  const u2 = Math.sqrt(covariance[3]!);
  const r = correlationOf(covariance, 2, 0, 1);
  thermometer.number({ what: "y₁, °C", expected: "-0.1712", got: y1, status: "published" });
  thermometer.number({ what: "s(y₁), °C", expected: "0.0029", got: u1, status: "published" });
  thermometer.number({ what: "y₂", expected: "0.00218", got: y2, status: "published" });
  thermometer.number({ what: "s(y₂)", expected: "0.00067", got: u2, status: "published" });
  thermometer.number({ what: "r(y₁, y₂)", expected: "-0.930", got: r, status: "published" });
  thermometer.number({ what: "s, °C", expected: "0.0035", got: s, status: "published" });
  thermometer.number({
    what: "Σ of squared residuals, °C²",
    expected: "1.10096583109e-4",
    got: squares,
    status: "published",
  });
  const at30 = y1 + 10 * y2;
  const u30 = Math.sqrt(covariance[0]! + 100 * covariance[3]! + 20 * covariance[1]!);
  thermometer.number({ what: "b(30 °C), °C", expected: "-0.1494", got: at30, status: "published" });
  thermometer.number({ what: "u of b(30 °C), °C", expected: "0.0041", got: u30, status: "published" });
  thermometer.number({
    what: "y₁, °C, more digits",
    expected: "-0.171203790131",
    got: y1,
    status: "independent program",
  });
  thermometer.number({ what: "y₂, more digits", expected: "0.002182697740", got: y2, status: "independent program" });
  thermometer.number({
    what: "r(y₁, y₂), more digits",
    expected: "-0.930429603",
    got: r,
    status: "independent program",
  });
  // A systematic 0.005 °C common to all corrections shifts the line and leaves its slope alone.
  thermometer.number({
    what: "u(y₁) with 0.005 °C in common, °C",
    expected: "0.00576893138",
    got: Math.hypot(u1, 0.005),
    status: "published",
  });
});
