import { evaluateFindings, type FindingResult } from "../../src/core/findings/evaluate.ts";
import { type Estimate, estimateProblem } from "../../src/core/fit/estimate.ts";
import { layOutProblem, type Problem } from "../../src/core/fit/problem.ts";
import type { LayoutId } from "../../src/core/machine/description.ts";
import { createRandom } from "../../src/core/numerics/random.ts";
import { drawTruth, type PlannedRun, plannedTimeline, simulateReadings, workedMachine } from "./simulate.ts";

/** How often something lay where it was said to lie. */
export interface Coverage {
  readonly inside: number;
  readonly asked: number;
  /**
   * Of inside/asked, from its scatter over machines: the answers of one machine hang together, so they count for less
   * than their number.
   */
  readonly standardError: number;
}

export interface ConsistencyResult {
  readonly machines: number;
  /** Variables of one problem: modes and unknowns. */
  readonly size: number;
  /** Mean of ‖R(x̂ − x)‖² over the whole state, by its size: 1 when the estimate errs by as much as it says. */
  readonly normalisedErrorSquared: number;
  /** Modes within value ± 2 standard deviations. */
  readonly modes: Coverage;
  /** Linear findings within their interval (value ± U; cut off at nothing for play and runout). */
  readonly linear: Coverage;
  /** Findings that are a largest or a spread, within their equal-tailed interval. */
  readonly sampled: Coverage;
}

// Any limit would do: only values and intervals are looked at.
const noLimits = { own: new Map<string, number>(), usual: new Map<string, number>() };
const passed = { passed: true, checks: [] } as const;

/** Over random machines drawn from the prior, `from` to `to` of them: does the estimate err by as much as it says? */
export function consistency(
  layout: LayoutId,
  plan: readonly PlannedRun[],
  from: number,
  to: number,
  seed: number,
): ConsistencyResult {
  const machine = workedMachine(layout);
  const blank = layOutProblem(machine, plannedTimeline(machine, plan));
  let squares = 0;
  const modes: Count[] = [];
  const linear: Count[] = [];
  const sampled: Count[] = [];
  for (let i = from; i < to; i++) {
    const random = createRandom(seed + i);
    const truth = drawTruth(blank, random);
    const problem = layOutProblem(machine, simulateReadings(blank, truth, random));
    const estimate = estimateProblem(problem);
    squares += errorSquared(estimate, truth);
    for (const counts of [modes, linear, sampled]) counts.push({ inside: 0, asked: 0 });
    machine.modes.forEach((_, mode) => {
      const sd = Math.sqrt(estimate.covariance[mode * machine.parameters.length + mode]);
      count(modes, Math.abs(estimate.state[mode] - truth[problem.present[mode]]) <= 2 * sd);
    });
    for (const result of evaluateFindings(estimate, noLimits, passed)) {
      const isTrue = trueValue(problem, result, truth);
      count(result.finding.form === "linear" ? linear : sampled, result.low <= isTrue && isTrue <= result.high);
    }
  }
  const machines = to - from;
  return {
    machines,
    size: blank.variables.length,
    normalisedErrorSquared: squares / machines / blank.variables.length,
    modes: coverageOf(modes),
    linear: coverageOf(linear),
    sampled: coverageOf(sampled),
  };
}

function errorSquared(estimate: Estimate, truth: Float64Array): number {
  let squares = 0;
  for (const rows of estimate.rows) {
    for (const { columns, coefficients } of rows) {
      let sum = 0;
      for (let j = 0; j < columns.length; j++)
        sum += coefficients[j] * (estimate.values[columns[j]] - truth[columns[j]]);
      squares += sum * sum;
    }
  }
  return squares;
}

function trueValue(problem: Problem, { finding }: FindingResult, truth: Float64Array): number {
  const state = Float64Array.from(problem.present, (column) => (column < 0 ? 0 : truth[column]));
  const scene = { machine: problem.machine, state, size: 0, skim: null };
  if (finding.form === "linear") return finding.evaluate(scene).value;
  return finding.reduce(
    finding.samples(scene).map(({ value }) => value),
    problem.machine,
  );
}

/** How often it was inside on one machine. */
interface Count {
  inside: number;
  asked: number;
}

function count(machines: readonly Count[], isInside: boolean): void {
  const machine = machines[machines.length - 1];
  machine.asked += 1;
  if (isInside) machine.inside += 1;
}

function coverageOf(machines: readonly Count[]): Coverage {
  const inside = machines.reduce((sum, machine) => sum + machine.inside, 0);
  const asked = machines.reduce((sum, machine) => sum + machine.asked, 0);
  const share = inside / asked;
  const squares = machines.reduce((sum, machine) => sum + (machine.inside / machine.asked - share) ** 2, 0);
  const standardError = Math.sqrt(squares / machines.length / Math.max(1, machines.length - 1));
  return { inside, asked, standardError };
}
