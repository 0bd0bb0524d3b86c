import { describe, expect, it } from "vitest";
import { triangularise } from "../numerics/householder.ts";
import { createRandom } from "../numerics/random.ts";
import { covarianceFromTriangle, solveUpper } from "../numerics/triangular.ts";
import { covarianceTimes, eliminate, type Row, type StagedSystem, solve, stageCovariances } from "./elimination.ts";

/** A random system over stages, with a prior for every variable in the stage where it first appears. */
function randomSystem(seed: number): StagedSystem {
  const random = createRandom(seed);
  const stageCount = 1 + random.integer(4);
  const variables = 4 + random.integer(8);
  const first = Array.from({ length: variables }, () => random.integer(stageCount));
  const last = first.map((stage) => stage + random.integer(stageCount - stage));
  const stages: Row[][] = Array.from({ length: stageCount }, () => []);
  for (let v = 0; v < variables; v++) {
    stages[first[v]].push({ columns: [v], coefficients: Float64Array.of(0.5 + random.uniform()), rightSide: 0 });
  }
  for (let stage = 0; stage < stageCount; stage++) {
    const alive = first.flatMap((from, v) => (from <= stage && stage <= last[v] ? [v] : []));
    if (alive.length === 0) continue;
    for (let row = 0; row < 6; row++) {
      stages[stage].push({
        columns: alive,
        coefficients: Float64Array.from(alive, () => random.normal()),
        rightSide: random.normal(),
      });
    }
  }
  return { variables, stages, keepToEnd: [0, variables - 1] };
}

function stackedQr(system: StagedSystem) {
  const rows = system.stages.flat();
  const n = system.variables;
  const a = new Float64Array(rows.length * (n + 1));
  rows.forEach(({ columns, coefficients, rightSide }, i) => {
    columns.forEach((column, j) => {
      a[i * (n + 1) + column] = coefficients[j];
    });
    a[i * (n + 1) + n] = rightSide;
  });
  triangularise(a, rows.length, n + 1, n);
  const z = Float64Array.from({ length: n }, (_, i) => a[i * (n + 1) + n]);
  return { x: solveUpper(a, n, n + 1, z), p: covarianceFromTriangle(a, n, n + 1) };
}

describe("elimination over stages", () => {
  const seeds = Array.from({ length: 60 }, (_, i) => i + 1);

  it("gives the solution of the stacked QR, forwards and backwards over all stages", () => {
    for (const seed of seeds) {
      const system = randomSystem(seed);
      const stacked = stackedQr(system);
      const staged = solve(eliminate(system));
      for (let v = 0; v < system.variables; v++) expect(staged[v]).toBeCloseTo(stacked.x[v], 10);
    }
  });

  it("gives every stage the covariance that the stacked QR gives its variables", () => {
    for (const seed of seeds) {
      const system = randomSystem(seed);
      const { p } = stackedQr(system);
      for (const { variables, matrix } of stageCovariances(eliminate(system))) {
        variables.forEach((a, i) => {
          variables.forEach((b, j) => {
            expect(matrix[i * variables.length + j]).toBeCloseTo(p[a * system.variables + b], 10);
          });
        });
      }
    }
  });

  it("multiplies by the covariance of all variables without forming it", () => {
    for (const seed of seeds) {
      const system = randomSystem(seed);
      const { p } = stackedQr(system);
      const random = createRandom(seed + 1000);
      const g = Float64Array.from({ length: system.variables }, () => random.normal());
      const product = covarianceTimes(eliminate(system), g);
      for (let i = 0; i < system.variables; i++) {
        let expected = 0;
        for (let j = 0; j < system.variables; j++) expected += p[i * system.variables + j] * g[j];
        expect(product[i]).toBeCloseTo(expected, 10);
      }
    }
  });

  it("never raises a variance when a row is added", () => {
    for (const seed of seeds) {
      const system = randomSystem(seed);
      const without = covarianceTimes(eliminate(system), unit(system.variables, 0))[0];
      const extra: Row = { columns: [0], coefficients: Float64Array.of(0.7), rightSide: 0.2 };
      const stages = system.stages.map((rows, stage) => (stage === system.stages.length - 1 ? [...rows, extra] : rows));
      const more = covarianceTimes(eliminate({ ...system, stages }), unit(system.variables, 0))[0];
      expect(more).toBeLessThanOrEqual(without * (1 + 1e-12));
    }
  });
});

function unit(n: number, index: number): Float64Array {
  const g = new Float64Array(n);
  g[index] = 1;
  return g;
}
