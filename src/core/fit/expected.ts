import { covarianceTimes } from "../estimation/elimination.ts";
import { whiten } from "../numerics/positive-definite.ts";
import { dot } from "../numerics/symmetric.ts";
import { type BoundInPlay, type BoundWorth, settleBounds } from "./bounds.ts";
import type { Estimate } from "./estimate.ts";
import { type ExpectedRow, expectedRows, groundOfRows, type PossibleRun } from "./expected-rows.ts";

export type { PossibleRun };

/** What runs would bring to some functions of the machine, asked of many runs one after the other. */
export interface Outlook {
  /** Variances of the functions as things stand. */
  readonly now: Float64Array;
  /** Variances after these runs have all been taken. */
  after(runs: readonly PossibleRun[]): Float64Array;
}

/**
 * Variances that possible runs would leave for some functions of the machine, without taking a reading: the posterior
 * covariance needs only the formula. With H the rows of the runs over all present variables, U their own unknowns with
 * prior variances K, R the readings' variances: S = H P Hᵀ + U K Uᵀ + R, and gᵀPg falls by (H P g)ᵀ S⁻¹ (H P g).
 *
 * Bounds that were felt before are then worth something else, and are weighed anew as if the runs read what is predicted.
 * What homing again and again would teach of the scatter of homings hangs on what is read and does not count.
 *
 * @param gradients functions of interest, over all variables of the problem
 */
export function outlookFrom(estimate: Estimate, gradients: readonly Float64Array[]): Outlook {
  const ground = groundOfRows(estimate);
  const covariance = covarianceColumns(estimate);
  const bounds = boundsOf(estimate);
  const all = [...gradients, ...bounds.map(({ gradient }) => gradient)];
  const products = all.map((g) => covarianceTimes(estimate.factor, g));
  const k = all.length;
  // Covariances of all functions with the bounds only: nothing else is asked for.
  const ofBounds = bounds.map((_, b) => products.map((product) => dot(product, bounds[b].gradient)));
  const now = Float64Array.from(gradients, (g, i) => dot(g, products[i]));
  return {
    now,
    after(runs) {
      const rows = expectedRows(ground, runs);
      const m = rows.length;
      const after = Float64Array.from(now);
      if (m === 0) return after;
      const told = whiten(covarianceOfRows(rows, covariance), m, covarianceWith(rows, products), k);
      const fall = (i: number, j: number) => {
        let sum = 0;
        for (let row = 0; row < m; row++) sum += told[row * k + i] * told[row * k + j];
        return sum;
      };
      for (let i = 0; i < after.length; i++) after[i] = Math.max(0, after[i] - fall(i, i));
      if (bounds.length > 0) {
        const first = gradients.length;
        const left = ofBounds.map((covariances, b) => Float64Array.from(covariances, (c, i) => c - fall(i, first + b)));
        weighAnew(bounds, after, left);
      }
      return after;
    },
  };
}

/** H P G, one row a reading; `products` are the columns of P G. */
function covarianceWith(rows: readonly ExpectedRow[], products: readonly Float64Array[]): Float64Array {
  const k = products.length;
  const out = new Float64Array(rows.length * k);
  rows.forEach(({ columns, coefficients }, row) => {
    for (let i = 0; i < k; i++) {
      const product = products[i];
      let sum = 0;
      for (let j = 0; j < columns.length; j++) sum += coefficients[j] * product[columns[j]];
      out[row * k + i] = sum;
    }
  });
  return out;
}

/** S = H P Hᵀ + U K Uᵀ + R; what is on and below the diagonal. */
function covarianceOfRows(rows: readonly ExpectedRow[], covariance: (column: number) => Float64Array): Float64Array {
  const m = rows.length;
  const touched = [...new Set(rows.flatMap(({ columns }) => [...columns]))];
  const place = new Map(touched.map((column, index) => [column, index]));
  const width = touched.length;
  const joint = touched.map((column) => {
    const whole = covariance(column);
    return Float64Array.from(touched, (other) => whole[other]);
  });
  const placed = rows.map(({ columns }) => Int32Array.from(columns, (column) => place.get(column) as number));
  const s = new Float64Array(m * m);
  const product = new Float64Array(width);
  for (let i = 0; i < m; i++) {
    product.fill(0);
    for (let j = 0; j < placed[i].length; j++) {
      const share = rows[i].coefficients[j];
      const column = joint[placed[i][j]];
      for (let a = 0; a < width; a++) product[a] += share * column[a];
    }
    for (let l = 0; l <= i; l++) {
      let sum = 0;
      for (let j = 0; j < placed[l].length; j++) sum += rows[l].coefficients[j] * product[placed[l][j]];
      s[i * m + l] = sum;
    }
    s[i * m + i] += rows[i].noise;
  }
  addOwnUnknowns(rows, s);
  return s;
}

function addOwnUnknowns(rows: readonly ExpectedRow[], s: Float64Array): void {
  const m = rows.length;
  const sharing = new Map<string, { row: number; share: number; variance: number }[]>();
  rows.forEach(({ own }, row) => {
    for (const [key, unknown] of own) sharing.set(key, [...(sharing.get(key) ?? []), { row, ...unknown }]);
  });
  for (const members of sharing.values()) {
    // The first to name it says what is known of it, as in the fit.
    const [{ variance }] = members;
    for (const a of members) {
      for (const b of members) if (b.row <= a.row) s[a.row * m + b.row] += a.share * b.share * variance;
    }
  }
}

/** Columns of the joint covariance of all variables, each computed when it is first asked for. */
function covarianceColumns({ factor }: Estimate): (column: number) => Float64Array {
  const known = new Map<number, Float64Array>();
  return (column) => {
    let whole = known.get(column);
    if (!whole) {
      const unit = new Float64Array(factor.variables);
      unit[column] = 1;
      whole = covarianceTimes(factor, unit);
      known.set(column, whole);
    }
    return whole;
  };
}

interface FeltBound extends BoundInPlay {
  readonly predicted: number;
  /** Over all variables of the problem. */
  readonly gradient: Float64Array;
}

function boundsOf({ rows, factor }: Estimate): readonly FeltBound[] {
  return rows.flat().flatMap(({ bound, columns, coefficients, sd }) => {
    if (bound === null) return [];
    const gradient = new Float64Array(factor.variables);
    for (let j = 0; j < columns.length; j++) gradient[columns[j]] = coefficients[j] * sd;
    return [{ ...bound, gradient }];
  });
}

/**
 * Bounds weighed anew where more is known: γ, what a bound is worth more than before, takes p²γ/(1 + γv) off each
 * variance, p the function's covariance with what the bound is about and v the variance of that.
 *
 * @param variances of the functions; written over
 * @param left covariance of each bound with all functions, then with all bounds; written over
 */
function weighAnew(bounds: readonly FeltBound[], variances: Float64Array, left: readonly Float64Array[]): void {
  const n = bounds.length;
  const first = variances.length;
  const mean = Float64Array.from(bounds, ({ predicted }) => predicted);
  const joint = Float64Array.from({ length: n * n }, (_, at) => left[Math.floor(at / n)][first + (at % n)]);
  const worths: readonly BoundWorth[] = settleBounds(bounds, mean, joint);
  for (let b = 0; b < n; b++) {
    const gained = worths[b].information - bounds[b].worth.information;
    const own = Float64Array.from(left[b]);
    const share = gained / (1 + gained * own[first + b]);
    for (let i = 0; i < first; i++) variances[i] = Math.max(0, variances[i] - own[i] ** 2 * share);
    for (let c = 0; c < n; c++) {
      const across = own[first + c];
      for (let i = 0; i < own.length; i++) left[c][i] -= across * own[i] * share;
    }
  }
}
