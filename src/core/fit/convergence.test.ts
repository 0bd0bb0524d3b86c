import { describe, expect, it } from "vitest";
import {
  drawTruth,
  fullCatalogue,
  type PlannedRun,
  plannedTimeline,
  simulateReadings,
  sixChecks,
  workedMachine,
} from "../../../tests/simulation/simulate.ts";
import { eliminate, solve } from "../estimation/elimination.ts";
import { createRandom } from "../numerics/random.ts";
import { type Estimate, estimateProblem } from "./estimate.ts";
import { layOutProblem, type Problem } from "./problem.ts";

/** A problem whose stations are each read so many times over. */
function problemOf(layout: "moving-gantry" | "fixed-bridge", plan: readonly PlannedRun[], repeats: number): Problem {
  const machine = workedMachine(layout);
  const once = plannedTimeline(machine, plan);
  const readings = once.readings.flatMap((reading) =>
    Array.from({ length: repeats }, (_, k) => ({ ...reading, id: `${reading.id} ${k}`, at: reading.at + k })),
  );
  const blank = layOutProblem(machine, { ...once, readings });
  const random = createRandom(11);
  return layOutProblem(machine, simulateReadings(blank, drawTruth(blank, random), random));
}

/** Length, in standard deviations of all variables together, of the step that one more round would take. */
function stepLeft({ problem, rows }: Estimate): number {
  const step = solve(eliminate({ variables: problem.variables.length, stages: rows, keepToEnd: [] }));
  let squares = 0;
  for (const { columns, coefficients } of rows.flat()) {
    let sum = 0;
    for (let j = 0; j < columns.length; j++) sum += coefficients[j] * step[columns[j]];
    squares += sum * sum;
  }
  return Math.sqrt(squares);
}

describe.each(["moving-gantry", "fixed-bridge"] as const)("the converged fit on a %s", (layout) => {
  it.each([
    ["six checks", sixChecks(), 1],
    ["the full catalogue", fullCatalogue(), 1],
    ["six checks read forty times over", sixChecks(), 40],
  ] as const)("of %s has less than a millionth of a standard deviation left to go", (_, plan, repeats) => {
    const estimate = estimateProblem(problemOf(layout, plan, repeats));
    expect(estimate.converged).toBe(true);
    expect(estimate.iterations).toBeLessThanOrEqual(8);
    expect(stepLeft(estimate)).toBeLessThan(1e-6);
  });

  it("is the same wherever it starts", () => {
    const problem = problemOf(layout, sixChecks(), 1);
    const usual = estimateProblem(problem);
    const random = createRandom(5);
    const elsewhere = Float64Array.from(problem.variables, ({ start, usualSd }) => start + usualSd * random.normal());
    const other = estimateProblem(problem, elsewhere);
    problem.machine.modes.forEach((_, mode) => {
      const sd = Math.sqrt(usual.covariance[mode * problem.present.length + mode]);
      expect(Math.abs(other.state[mode] - usual.state[mode])).toBeLessThan(2e-6 * sd);
    });
  });
});
