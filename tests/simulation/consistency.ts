import { estimateProblem } from "../../src/core/fit/estimate.ts";
import { layOutProblem } from "../../src/core/fit/problem.ts";
import type { LayoutId } from "../../src/core/machine/description.ts";
import { createRandom } from "../../src/core/numerics/random.ts";
import { drawTruth, type PlannedRun, plannedTimeline, simulateReadings, workedMachine } from "./simulate.ts";

export interface ConsistencyResult {
  readonly machines: number;
  readonly size: number;
  /** Mean of ‖R(x̂ − x)‖² over all variables, by their number. */
  readonly normalisedErrorSquared: number;
  /** Share of modes whose truth lies within value ± 2 standard deviations. */
  readonly coverage: number;
  readonly iterations: number;
  readonly milliseconds: number;
}

/** Over `machines` random machines: does the estimate err by as much as it says? */
export function consistency(
  layout: LayoutId,
  plan: readonly PlannedRun[],
  machines: number,
  seed: number,
): ConsistencyResult {
  const machine = workedMachine(layout);
  const blank = layOutProblem(machine, plannedTimeline(machine, plan));
  let squares = 0;
  let inside = 0;
  let asked = 0;
  let iterations = 0;
  const started = performance.now();
  for (let i = 0; i < machines; i++) {
    const random = createRandom(seed + i);
    const truth = drawTruth(blank, random);
    const problem = layOutProblem(machine, simulateReadings(blank, truth, random));
    const estimate = estimateProblem(problem);
    iterations += estimate.iterations;
    const error = Float64Array.from(estimate.values, (value, v) => value - truth[v]);
    for (const rows of estimate.rows) {
      for (const { columns, coefficients } of rows) {
        let sum = 0;
        for (let j = 0; j < columns.length; j++) sum += coefficients[j] * error[columns[j]];
        squares += sum * sum;
      }
    }
    machine.modes.forEach((_, mode) => {
      const sd = Math.sqrt(estimate.covariance[mode * machine.parameters.length + mode]);
      asked += 1;
      if (Math.abs(estimate.state[mode] - truth[problem.present[mode]]) <= 2 * sd) inside += 1;
    });
  }
  const size = blank.variables.length;
  return {
    machines,
    size,
    normalisedErrorSquared: squares / machines / size,
    coverage: inside / asked,
    iterations: iterations / machines,
    milliseconds: (performance.now() - started) / machines,
  };
}
