import { invariant } from "../base/invariant.ts";

/** c + a·x + b·y whose greatest distance from the heights, `halfWidth`, is the least there is. */
export interface ChebyshevFit {
  readonly c: number;
  readonly a: number;
  readonly b: number;
  readonly halfWidth: number;
}

/**
 * Fits c + a·x + b·y to heights so that the greatest absolute deviation h is as small as can be.
 *
 *   minimise h  subject to  −h ≤ zᵢ − (c + a·xᵢ + b·yᵢ) ≤ h
 *
 * Solved exactly (but for rounding) through the dual linear programme, which weighs points pᵢ ≥ 0 that touch the upper
 * plane against points qᵢ ≥ 0 that touch the lower one: Σp = Σq = ½, with equal centres of gravity in plan. A basis is
 * four touching points; each step takes in the point that sticks out most and lets one go by the ratio test. After a
 * run of steps without progress the entering and leaving points are taken by lowest index, which cannot cycle.
 * Source: the exchange method is common practice for discrete Chebyshev fits; the programme and its dual are closed form.
 *
 * @param x places in plan, of size about 1 for the tolerances to mean something
 * @returns undefined when the places do not spread over a plane
 */
export function chebyshevFit(
  x: readonly number[],
  y: readonly number[],
  heights: readonly number[],
): ChebyshevFit | undefined {
  const count = heights.length;
  invariant(x.length === count && y.length === count, "a fit needs one height for each place");
  const start = spreadTriangle(x, y);
  if (start === undefined) return undefined;
  const size = Math.max(1e-300, ...heights.map(Math.abs));
  const tolerance = 1e-13 * size;

  // Columns: point i touching the upper plane is index i, touching the lower one is index count + i.
  const column = (index: number): readonly [number, number, number, number] => {
    const i = index % count;
    return index < count ? [1, x[i]!, y[i]!, 1] : [-1, -x[i]!, -y[i]!, 1];
  };
  const cost = (index: number) => (index < count ? heights[index]! : -heights[index - count]!);

  const basis = [start[0], count + start[0], start[1], start[2]];
  let stalled = 0;
  for (let step = 0; step < 200 + 50 * count; step++) {
    const columns = basis.map(column);
    const weights = solveFour(transpose(columns), [0, 0, 0, 1]);
    const plane = solveFour(columns, basis.map(cost));
    invariant(weights !== undefined && plane !== undefined, "the touching points lost their spread");
    const [c, a, b, h] = plane;
    let entering = -1;
    let most = tolerance;
    for (let i = 0; i < count && !(stalled > stallLimit && entering >= 0); i++) {
      const deviation = heights[i]! - (c + a * x[i]! + b * y[i]!);
      const excess = Math.abs(deviation) - h;
      if (excess > most) {
        most = excess;
        entering = deviation > 0 ? i : count + i;
      }
    }
    if (entering < 0) return { c, a, b, halfWidth: Math.max(h, 0) };
    const change = solveFour(transpose(columns), column(entering));
    invariant(change !== undefined, "the touching points lost their spread");
    let leaving = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < 4; k++) {
      if (!(change[k]! > 1e-11)) continue;
      const ratio = Math.max(weights[k]!, 0) / change[k]!;
      const tie = leaving >= 0 && Math.abs(ratio - least) <= 1e-14;
      const first = stalled > stallLimit ? basis[k]! < (basis[leaving] ?? 0) : change[k]! > (change[leaving] ?? 0);
      if (tie ? first : ratio < least) {
        least = ratio;
        leaving = k;
      }
    }
    invariant(leaving >= 0, "the fit is unbounded");
    basis[leaving] = entering;
    stalled = least > 1e-14 ? 0 : stalled + 1;
  }
  invariant(false, "the exchange of touching points did not end");
}

const stallLimit = 30;

/** Three places that span a triangle: two far apart and the one farthest from the line through them. */
function spreadTriangle(x: readonly number[], y: readonly number[]): [number, number, number] | undefined {
  let second = 0;
  let far = 0;
  for (let i = 1; i < x.length; i++) {
    const distance = Math.hypot(x[i]! - x[0]!, y[i]! - y[0]!);
    if (distance > far) {
      far = distance;
      second = i;
    }
  }
  let third = 0;
  let area = 1e-9 * far * far;
  for (let i = 1; i < x.length; i++) {
    const cross = Math.abs((x[second]! - x[0]!) * (y[i]! - y[0]!) - (y[second]! - y[0]!) * (x[i]! - x[0]!));
    if (cross > area) {
      area = cross;
      third = i;
    }
  }
  return third === 0 ? undefined : [0, second, third];
}

type Four = readonly [number, number, number, number];

function transpose(rows: readonly Four[]): Four[] {
  return [0, 1, 2, 3].map((j) => rows.map((row) => row[j]!) as unknown as Four);
}

/** Solves a 4 × 4 system by elimination with row exchanges; undefined when it is singular. */
function solveFour(rows: readonly Four[], right: readonly number[]): [number, number, number, number] | undefined {
  const m = rows.map((row, i) => [...row, right[i]!]);
  for (let k = 0; k < 4; k++) {
    let pivot = k;
    for (let i = k + 1; i < 4; i++) if (Math.abs(m[i]![k]!) > Math.abs(m[pivot]![k]!)) pivot = i;
    if (!(Math.abs(m[pivot]![k]!) > 1e-14)) return undefined;
    [m[k], m[pivot]] = [m[pivot]!, m[k]!];
    for (let i = k + 1; i < 4; i++) {
      const factor = m[i]![k]! / m[k]![k]!;
      for (let j = k; j < 5; j++) m[i]![j]! -= factor * m[k]![j]!;
    }
  }
  const solution: [number, number, number, number] = [0, 0, 0, 0];
  for (let i = 3; i >= 0; i--) {
    let sum = m[i]![4]!;
    for (let j = i + 1; j < 4; j++) sum -= m[i]![j]! * solution[j]!;
    solution[i] = sum / m[i]![i]!;
  }
  return solution;
}
