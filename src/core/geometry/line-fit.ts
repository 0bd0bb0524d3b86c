import { invariant } from "../base/invariant.ts";

/** A straight line through a profile: height = intercept + slope·position, and how far each point lies above it. */
export interface FittedLine {
  readonly intercept: number;
  readonly slope: number;
  /** Height of each point over the line, in the order of the points. */
  readonly deviations: readonly number[];
  /** Greatest minus least deviation, measured along the heights. */
  readonly width: number;
}

/**
 * The least-squares line of a profile: slope = Σ(x−x̄)(z−z̄)/Σ(x−x̄)², through (x̄, z̄).
 *
 * Closed form. Heights are taken as the only uncertain part; they may be in another unit than the positions, and the
 * slope is then in the one per the other.
 *
 * @returns undefined when all positions are the same
 */
export function leastSquaresLine(positions: readonly number[], heights: readonly number[]): FittedLine | undefined {
  invariant(positions.length === heights.length, "a profile needs one height for each position");
  const count = positions.length;
  const meanPosition = mean(positions);
  const meanHeight = mean(heights);
  let square = 0;
  let product = 0;
  for (let i = 0; i < count; i++) {
    const x = positions[i]! - meanPosition;
    square += x * x;
    product += x * (heights[i]! - meanHeight);
  }
  if (!(square > 0)) return undefined;
  const slope = product / square;
  return lineWithDeviations(meanHeight - slope * meanPosition, slope, positions, heights);
}

/** The line through the first and the last point of a profile; undefined when they stand at the same position. */
export function endPointLine(positions: readonly number[], heights: readonly number[]): FittedLine | undefined {
  invariant(positions.length === heights.length, "a profile needs one height for each position");
  const last = positions.length - 1;
  if (last < 1 || positions[last] === positions[0]) return undefined;
  const slope = (heights[last]! - heights[0]!) / (positions[last]! - positions[0]!);
  return lineWithDeviations(heights[0]! - slope * positions[0]!, slope, positions, heights);
}

/** Completes a line by what the points do about it. */
export function lineWithDeviations(
  intercept: number,
  slope: number,
  positions: readonly number[],
  heights: readonly number[],
): FittedLine {
  const deviations = heights.map((height, i) => height - (intercept + slope * positions[i]!));
  return { intercept, slope, deviations, width: Math.max(...deviations) - Math.min(...deviations) };
}

function mean(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}
