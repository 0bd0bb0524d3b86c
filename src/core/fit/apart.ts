import { EigenvalueDecomposition, Matrix } from "ml-matrix";
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

/**
 * With what a finding is confused: the direction of its gradient that the readings leave open, as modes. Each mode's
 * part is its share of the finding's remaining variance when moved along what the posterior still allows.
 */
export function confusedWith(estimate: Estimate, gradient: Float64Array): readonly Direction["parts"][number][] {
  const { machine } = estimate.problem;
  const width = machine.parameters.length;
  const product = new Float64Array(machine.modes.length);
  let variance = 0;
  for (let i = 0; i < product.length; i++) {
    let sum = 0;
    for (let j = 0; j < width; j++) sum += estimate.covariance[i * width + j] * gradient[j];
    product[i] = sum;
    variance += gradient[i] * sum;
  }
  if (variance <= 0) return [];
  // Correlation of each mode's remaining doubt with the finding's, scaled by how open the mode still is.
  const components = [...product].map((p, i) => p / (Math.sqrt(variance) * machine.modes[i].priorSd));
  return largestParts(components, machine.modes);
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
