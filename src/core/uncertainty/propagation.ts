import { invariant } from "../base/invariant.ts";
import { effectiveDegreesOfFreedom } from "./coverage.ts";

/** One input of a measurement model. */
export interface UncertainInput {
  readonly value: number;
  readonly standardUncertainty: number;
  /** Infinity, the default, when the standard uncertainty is taken as known. */
  readonly degreesOfFreedom?: number;
}

/** Computes the result from the inputs' values, in the order of the inputs. */
export type MeasurementModel = (values: readonly number[]) => number;

export interface Propagation {
  readonly value: number;
  /** u_c of the first-order law, or with the second-order terms when they were asked for. */
  readonly standardUncertainty: number;
  /** Welch–Satterthwaite; undefined when inputs are correlated, for which the formula is not valid. */
  readonly degreesOfFreedom: number | undefined;
  /** ∂f/∂xᵢ in the order of the inputs. */
  readonly sensitivities: readonly number[];
  /** |∂f/∂xᵢ|·u(xᵢ) in the order of the inputs. */
  readonly contributions: readonly number[];
}

/**
 * The law of propagation of uncertainty.
 *
 *   u_c²(y) = Σᵢ Σⱼ cᵢ·cⱼ·u(xᵢ, xⱼ),  cᵢ = ∂f/∂xᵢ
 *   second order, independent inputs:  + Σᵢ Σⱼ [½·f_ij² + f_i·f_ijj]·u²(xᵢ)·u²(xⱼ)
 *
 * Derivatives are taken numerically, with steps that are a share of each input's standard uncertainty. Source:
 * [GUM §5.1.2 eq. 10 and note], [GUM §5.2.2 eq. 13].
 *
 * @param options.correlation r(i, j) of two different inputs; none means independent
 * @param options.secondOrder adds the second-order terms; only for independent inputs
 */
export function propagate(
  model: MeasurementModel,
  inputs: readonly UncertainInput[],
  options: { readonly correlation?: (i: number, j: number) => number; readonly secondOrder?: boolean } = {},
): Propagation {
  const { correlation, secondOrder = false } = options;
  invariant(!(correlation && secondOrder), "second-order terms are defined for independent inputs");
  const values = inputs.map((input) => input.value);
  const steps = inputs.map(stepFor);
  const sensitivities = inputs.map((_, i) => derivative(model, values, i, steps[i]!));
  const signed = inputs.map((input, i) => sensitivities[i]! * input.standardUncertainty);
  let variance = 0;
  for (let i = 0; i < inputs.length; i++) {
    variance += signed[i]! ** 2;
    if (correlation === undefined) continue;
    for (let j = i + 1; j < inputs.length; j++) variance += 2 * correlation(i, j) * signed[i]! * signed[j]!;
  }
  const contributions = signed.map(Math.abs);
  if (secondOrder) variance += secondOrderVariance(model, inputs, sensitivities);
  return {
    value: model(values),
    standardUncertainty: Math.sqrt(Math.max(variance, 0)),
    degreesOfFreedom:
      correlation === undefined
        ? effectiveDegreesOfFreedom(
            inputs.map((input, i) => ({
              standardUncertainty: contributions[i]!,
              degreesOfFreedom: input.degreesOfFreedom ?? Number.POSITIVE_INFINITY,
            })),
          )
        : undefined,
    sensitivities,
    contributions,
  };
}

/**
 * The covariance of several results of the same inputs: U_y = J·U_x·Jᵀ.
 *
 * Source: [GUM §H.2.3 eq. H.9], written with matrices.
 *
 * @param models one for each result
 * @param values the inputs' values, n of them
 * @param covariance n × n, row-major
 * @returns the results' values and their covariance, row-major
 */
export function propagateCovariance(
  models: readonly MeasurementModel[],
  values: readonly number[],
  covariance: Float64Array,
): { readonly values: readonly number[]; readonly covariance: Float64Array } {
  const n = values.length;
  invariant(covariance.length === n * n, "the covariance has one row and column for each input");
  const jacobian = models.map((model) =>
    values.map((value, i) =>
      derivative(model, values, i, stepFor({ value, standardUncertainty: Math.sqrt(covariance[i * n + i]!) })),
    ),
  );
  const size = models.length;
  const result = new Float64Array(size * size);
  for (let p = 0; p < size; p++) {
    for (let q = p; q < size; q++) {
      let sum = 0;
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) sum += jacobian[p]![i]! * covariance[i * n + j]! * jacobian[q]![j]!;
      }
      result[p * size + q] = sum;
      result[q * size + p] = sum;
    }
  }
  return { values: models.map((model) => model(values)), covariance: result };
}

/** A quarter of the standard uncertainty: small enough for the curve, large enough to stay clear of rounding. */
function stepFor(input: UncertainInput): number {
  return input.standardUncertainty > 0 ? input.standardUncertainty / 4 : 1e-5 * Math.max(Math.abs(input.value), 1);
}

/** ∂f/∂xᵢ by differences over ±h and ±2h, right to the fourth order in h. */
function derivative(model: MeasurementModel, values: readonly number[], i: number, h: number): number {
  const at = (shift: number) => model(shifted(values, i, shift));
  return (8 * (at(h) - at(-h)) - (at(2 * h) - at(-2 * h))) / (12 * h);
}

function secondOrderVariance(
  model: MeasurementModel,
  inputs: readonly UncertainInput[],
  sensitivities: readonly number[],
): number {
  const values = inputs.map((input) => input.value);
  const centre = model(values);
  // Small enough for a curve like 1/x over a wide input, large enough that third differences keep their digits.
  const h = 1 / 16;
  let variance = 0;
  for (let i = 0; i < inputs.length; i++) {
    const ui = inputs[i]!.standardUncertainty;
    if (ui === 0) continue;
    for (let j = 0; j < inputs.length; j++) {
      const uj = inputs[j]!.standardUncertainty;
      if (uj === 0) continue;
      // f_ij·uᵢ·uⱼ and f_ijj·uᵢ·uⱼ², by differences over a share of the standard uncertainties.
      const at = (a: number, b: number) => model(shifted(shifted(values, i, a * h * ui), j, b * h * uj));
      const mixed = i === j ? at(1, 0) - 2 * centre + at(-1, 0) : (at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / 4;
      const third =
        i === j
          ? (at(2, 0) - 2 * at(1, 0) + 2 * at(-1, 0) - at(-2, 0)) / 2
          : (at(1, 1) - 2 * at(1, 0) + at(1, -1) - at(-1, 1) + 2 * at(-1, 0) - at(-1, -1)) / 2;
      variance += 0.5 * (mixed / h ** 2) ** 2 + sensitivities[i]! * ui * (third / h ** 3);
    }
  }
  return variance;
}

function shifted(values: readonly number[], i: number, shift: number): number[] {
  const result = values.slice();
  result[i] = result[i]! + shift;
  return result;
}
