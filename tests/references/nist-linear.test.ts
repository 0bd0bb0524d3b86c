import { expect, test } from "vitest";
import { triangularise } from "../../src/core/numerics/householder.ts";
import { covarianceFromTriangle, solveUpper } from "../../src/core/numerics/triangular.ts";
import { matchingDigits, openReference } from "./reference.ts";
import { readReferenceDataset } from "./strd.ts";

const source = openReference("[NIST StRD]");

const polynomial = (degree: number) => (x: readonly number[]) =>
  Array.from({ length: degree + 1 }, (_, power) => x[0]! ** power);

/**
 * Digits asked of estimates, standard deviations and the residual standard deviation. Powers of x and columns that go
 * up together cost digits before any solver begins: the condition of Filip's powers alone is about 10¹⁵ (10¹⁰ with
 * columns of equal length), of Longley's 10⁹.
 */
const datasets = [
  { name: "Norris", design: polynomial(1), estimates: 12, deviations: 12, residual: 12 },
  { name: "NoInt1", design: (x: readonly number[]) => [x[0]!], estimates: 13, deviations: 13, residual: 13 },
  { name: "NoInt2", design: (x: readonly number[]) => [x[0]!], estimates: 13, deviations: 13, residual: 13 },
  { name: "Filip", design: polynomial(10), estimates: 7, deviations: 7, residual: 7 },
  { name: "Longley", design: (x: readonly number[]) => [1, ...x], estimates: 10, deviations: 10, residual: 10 },
  { name: "Wampler1", design: polynomial(5), estimates: 9, deviations: 9, residual: 9 },
  { name: "Wampler2", design: polynomial(5), estimates: 12, deviations: 12, residual: 12 },
  { name: "Wampler3", design: polynomial(5), estimates: 9, deviations: 9, residual: 12 },
  { name: "Wampler5", design: polynomial(5), estimates: 6, deviations: 9, residual: 12 },
];

function solve(rows: readonly (readonly number[])[], design: (x: readonly number[]) => readonly number[]) {
  const augmented = rows.map(([y, ...x]) => [...design(x), y!]);
  const n = augmented[0]!.length - 1;
  const m = rows.length;
  const a = Float64Array.from(augmented.flat());
  triangularise(a, m, n + 1);
  const right = Array.from({ length: n }, (_, i) => a[i * (n + 1) + n]!);
  const s = Math.abs(a[n * (n + 1) + n]!) / Math.sqrt(m - n);
  const covariance = covarianceFromTriangle(a, n, n + 1);
  return {
    estimates: Array.from(solveUpper(a, n, n + 1, right)),
    deviations: Array.from({ length: n }, (_, i) => s * Math.sqrt(covariance[i * n + i]!)),
    residual: s,
  };
}

for (const { name, design, estimates, deviations, residual } of datasets) {
  test(`${name}, solved by the orthogonal reduction as it stands`, () => {
    const data = readReferenceDataset(name);
    const got = solve(data.rows, design);
    const against = (certified: readonly number[], values: readonly number[]) =>
      certified.map((value, i) => [value, values[i]!] as const);
    source.digits({
      what: `${name}: estimates`,
      pairs: against(data.estimates, got.estimates),
      status: "published",
      atLeast: estimates,
      summary: `${data.estimates.length} certified`,
    });
    source.digits({
      what: `${name}: their standard deviations`,
      pairs: against(data.standardDeviations, got.deviations),
      status: "published",
      atLeast: deviations,
      summary: `${data.estimates.length} certified`,
    });
    source.digits({
      what: `${name}: residual standard deviation`,
      pairs: [[data.residualStandardDeviation, got.residual]],
      status: "published",
      atLeast: residual,
      summary: "1 certified",
    });
    if (process.env.SHOW_DIGITS)
      console.log(
        name,
        Math.min(...against(data.estimates, got.estimates).map(([a, b]) => matchingDigits(a, b))).toFixed(1),
        Math.min(...against(data.standardDeviations, got.deviations).map(([a, b]) => matchingDigits(a, b))).toFixed(1),
        matchingDigits(data.residualStandardDeviation, got.residual).toFixed(1),
      );
  });
}

test("every linear set in the folder is read whole", () => {
  expect(datasets.map(({ name }) => readReferenceDataset(name).rows.length)).toEqual([
    36, 11, 3, 82, 16, 21, 21, 21, 21,
  ]);
});
