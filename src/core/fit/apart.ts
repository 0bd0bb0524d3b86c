import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { covarianceTimes } from "../estimation/elimination.ts";
import type { Estimate } from "./estimate.ts";

/** Modes that stand together in one direction which the readings have not narrowed. */
export interface Direction {
  /** Posterior over prior variance along the direction: 1 means that nothing is known but what is usual. */
  readonly share: number;
  /** The largest components, by mode, in usual standard deviations; the largest is positive. */
  readonly parts: readonly { readonly mode: string; readonly words: string; readonly component: number }[];
}

/** Above this a direction counts as untouched by the readings. */
const UNTOUCHED = 0.98;

/**
 * What cannot be told apart: eigenvectors of the posterior covariance of the modes as they stand now, scaled by what is
 * usual for each, with eigenvalues near 1 although its modes by themselves have been narrowed or asked about.
 */
export function untouchedDirections(estimate: Estimate): readonly Direction[] {
  const { machine } = estimate.problem;
  const n = machine.modes.length;
  const width = machine.parameters.length;
  const scaled = new Matrix(n, n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      scaled.set(i, j, estimate.covariance[i * width + j] / (machine.modes[i].priorSd * machine.modes[j].priorSd));
    }
  }
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(scaled, { assumeSymmetric: true });
  return realEigenvalues
    .flatMap((share, k): Direction[] => {
      if (share < UNTOUCHED) return [];
      const components = eigenvectorMatrix.getColumn(k);
      return [{ share, parts: largestParts(components, machine.modes) }];
    })
    .sort((a, b) => b.share - a.share);
}

/** A mode that goes into a function of the machine, and how far the readings have narrowed it by itself. */
export interface Cause {
  readonly mode: string;
  readonly words: string;
  /** |∂f/∂mode| times what is usual for the mode: how much of f it can make. */
  readonly weight: number;
  /** Standard deviation now over what is usual: 1 means that no reading tells it from the others. */
  readonly open: number;
  /** |∂f/∂mode| times the standard deviation now: how much of f it can still make. */
  readonly left: number;
}

/** The modes that can make a function what it is, the weightiest first; what weighs under a tenth of the first is left out. */
export function causesOf(estimate: Estimate, gradient: Float64Array): readonly Cause[] {
  const { machine } = estimate.problem;
  const width = machine.parameters.length;
  const causes = machine.modes
    .map((mode, i) => ({
      mode: mode.id,
      words: mode.words,
      weight: Math.abs(gradient[i]) * mode.priorSd,
      open: Math.sqrt(estimate.covariance[i * width + i]) / mode.priorSd,
      left: Math.abs(gradient[i]) * Math.sqrt(estimate.covariance[i * width + i]),
    }))
    .sort((a, b) => b.weight - a.weight);
  return causes.filter(({ weight }) => weight > 0.1 * causes[0].weight && weight > 0);
}

/** Something else that the readings could mean as well. */
export interface Confusion {
  readonly variable: string;
  readonly words: string;
  /** Share of the function's remaining variance that would go if this were known: the squared correlation. */
  readonly share: number;
}

/** Below this knowing the other thing would change little. */
const MATTERS = 0.3;

/**
 * What a function of the machine cannot be told from: variables that are none of its own causes, with which the readings
 * leave it correlated. `g` is over all variables of the problem; each thing is named once.
 */
export function confusedWith(estimate: Estimate, g: Float64Array): readonly Confusion[] {
  const { problem, factor, covariances } = estimate;
  const product = covarianceTimes(factor, g);
  const variance = g.reduce((sum, value, i) => sum + value * product[i], 0);
  const { variables, matrix } = covariances[covariances.length - 1];
  const weights = problem.variables.map(({ usualSd }, i) => Math.abs(g[i]) * usualSd);
  const heaviest = Math.max(...weights);
  const isCause = (variable: number) => weights[variable] > 0.2 * heaviest;
  // A mode has a variable for each time that something changed it, and an unknown one for each run: by words it is one.
  const named = new Set(variables.filter(isCause).map((variable) => problem.variables[variable].words));
  return variables
    .flatMap((variable, i): Confusion[] => {
      const { id, words, kind } = problem.variables[variable];
      if (isCause(variable) || kind === "place" || kind === "scatter") return [];
      const own = matrix[i * variables.length + i];
      const share = variance > 0 && own > 0 ? product[variable] ** 2 / (variance * own) : 0;
      return share > MATTERS ? [{ variable: id, words, share }] : [];
    })
    .sort((a, b) => b.share - a.share)
    .filter(({ words }) => !named.has(words) && named.add(words));
}

function largestParts(
  components: readonly number[],
  modes: Estimate["problem"]["machine"]["modes"],
): Direction["parts"] {
  const largest = Math.max(...components.map(Math.abs));
  const sign = Math.sign(components[components.findIndex((c) => Math.abs(c) === largest)]);
  return components
    .map((component, i) => ({ mode: modes[i].id, words: modes[i].words, component: sign * component }))
    .filter(({ component }) => Math.abs(component) > 0.3 * largest)
    .sort((a, b) => Math.abs(b.component) - Math.abs(a.component))
    .slice(0, 5);
}
