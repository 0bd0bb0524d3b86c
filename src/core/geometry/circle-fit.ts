import { invariant } from "../base/invariant.ts";
import { triangularise } from "../numerics/householder.ts";
import { solveUpper } from "../numerics/triangular.ts";

/** A circle laid through points, and how far each point lies outside it. */
export interface FittedCircle {
  readonly centreX: number;
  readonly centreY: number;
  readonly radius: number;
  /** Distance of each point from the centre less the radius, in the order of the points. */
  readonly deviations: readonly number[];
  /** Greatest minus least deviation: the radial separation of the two circles about this centre that hold all points. */
  readonly width: number;
}

/**
 * The circle of the linearised fit: x² + y² = 2·x₀·x + 2·y₀·y + (r² − x₀² − y₀²), solved by least squares. Quick and
 * without iteration, but biased where the points cover a short arc; a start for the geometric fit. Closed form.
 *
 * @returns undefined when the points do not settle a circle (fewer than three, or all on one line)
 */
export function linearisedCircle(x: readonly number[], y: readonly number[]): FittedCircle | undefined {
  const count = x.length;
  invariant(y.length === count, "a point needs both coordinates");
  if (count < 3) return undefined;
  const meanX = mean(x);
  const meanY = mean(y);
  const size = Math.max(...x.map((value) => Math.abs(value - meanX)), ...y.map((value) => Math.abs(value - meanY)));
  if (!(size > 0)) return undefined;
  const rows = new Float64Array(count * 4);
  for (let i = 0; i < count; i++) {
    const u = (x[i]! - meanX) / size;
    const v = (y[i]! - meanY) / size;
    rows.set([2 * u, 2 * v, 1, u * u + v * v], i * 4);
  }
  triangularise(rows, count, 4, 3);
  const straight = 1e-10 * Math.sqrt(count);
  if (!(Math.min(Math.abs(rows[0]!), Math.abs(rows[5]!), Math.abs(rows[10]!)) > straight)) return undefined;
  const solution = solveUpper(rows, 3, 4, [rows[3]!, rows[7]!, rows[11]!]);
  const [u0, v0, rest] = [solution[0]!, solution[1]!, solution[2]!];
  const radius = size * Math.sqrt(rest + u0 * u0 + v0 * v0);
  return circleWithDeviations(meanX + size * u0, meanY + size * v0, radius, x, y);
}

/**
 * The geometric least-squares circle: the centre and radius with the least Σ(dᵢ − r)², dᵢ the distance of point i from
 * the centre. Gauss–Newton steps on rows [−(xᵢ−x₀)/dᵢ, −(yᵢ−y₀)/dᵢ, −1 | dᵢ − r] from the linearised fit, halved while
 * they would raise the sum by more than rounding. Source: the geometric fit of [Gander Golub Strebel §4].
 *
 * @returns undefined when the points do not settle a circle
 */
export function leastSquaresCircle(x: readonly number[], y: readonly number[]): FittedCircle | undefined {
  const start = linearisedCircle(x, y);
  if (start === undefined) return undefined;
  let circle = start;
  let sum = sumOfSquares(circle.deviations);
  const count = x.length;
  const rows = new Float64Array(count * 4);
  for (let iteration = 0; iteration < 200; iteration++) {
    for (let i = 0; i < count; i++) {
      const dx = x[i]! - circle.centreX;
      const dy = y[i]! - circle.centreY;
      const distance = Math.max(Math.hypot(dx, dy), Number.MIN_VALUE);
      rows.set([dx / distance, dy / distance, 1, circle.deviations[i]!], i * 4);
    }
    triangularise(rows, count, 4, 3);
    if (rows[0] === 0 || rows[5] === 0 || rows[10] === 0) return undefined;
    const step = solveUpper(rows, 3, 4, [rows[3]!, rows[7]!, rows[11]!]);
    let share = 1;
    let next = stepped(circle, step, share, x, y);
    let nextSum = sumOfSquares(next.deviations);
    // The sum is flat at its least: the last steps, which still settle digits of the centre, change it by rounding only.
    const bound = sum * (1 + 1e-12);
    while (nextSum > bound && share > 1e-6) {
      share /= 2;
      next = stepped(circle, step, share, x, y);
      nextSum = sumOfSquares(next.deviations);
    }
    if (nextSum > bound) return circle;
    circle = next;
    sum = nextSum;
    const moved = share * Math.max(...step.map(Math.abs));
    if (moved <= 1e-14 * (circle.radius + Math.abs(circle.centreX) + Math.abs(circle.centreY))) return circle;
  }
  return circle;
}

/** Completes a circle by what the points do about it. */
export function circleWithDeviations(
  centreX: number,
  centreY: number,
  radius: number,
  x: readonly number[],
  y: readonly number[],
): FittedCircle {
  const deviations = x.map((value, i) => Math.hypot(value - centreX, y[i]! - centreY) - radius);
  return { centreX, centreY, radius, deviations, width: Math.max(...deviations) - Math.min(...deviations) };
}

function stepped(
  circle: FittedCircle,
  step: Float64Array,
  share: number,
  x: readonly number[],
  y: readonly number[],
): FittedCircle {
  return circleWithDeviations(
    circle.centreX + share * step[0]!,
    circle.centreY + share * step[1]!,
    circle.radius + share * step[2]!,
    x,
    y,
  );
}

function sumOfSquares(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value * value;
  return sum;
}

function mean(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}
