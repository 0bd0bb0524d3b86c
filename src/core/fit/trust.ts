import { covarianceTimes, type Factor, type StageCovariance } from "../estimation/elimination.ts";
import { limitOfReturn } from "../instruments/reading-uncertainty.ts";
import { chiSquareCdf } from "../numerics/distributions.ts";
import type { Estimate } from "./estimate.ts";
import type { FitRow } from "./linearise.ts";
import type { Reading, Run } from "./timeline.ts";

/** A residual beyond this many standard deviations is odd. */
export const ODD = 3.5;
/** A run whose readings scatter this improbably is flagged. */
export const IMPROBABLE = 0.001;
// By how much the sum of squares must fall before a whole run counts as misread: e^(−15) in likelihood.
const FAR_BETTER = 30;

/** How one observation sits with the rest. */
export interface RowTrust {
  readonly observation: number;
  readonly readings: readonly Reading[];
  /** What is read less what the fit says, in the reading's unit. */
  readonly residual: number;
  /** The residual by the standard deviation that it should have: studentised, as if the row were left out. */
  readonly studentised: number;
  readonly leverage: number;
  readonly odd: boolean;
}

export interface RunTrust {
  readonly run: Run;
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly probability: number;
  readonly improbable: boolean;
  /** The first station, read again at the end, had moved by more than twice the feel: the run is done again. */
  readonly returned: { readonly station: string; readonly moved: number; readonly limit: number } | null;
  /** All readings of the run would fit far better times this factor. */
  readonly misread: { readonly factor: number; readonly squaresNow: number; readonly squaresThen: number } | null;
}

/** A tool or an object that would have to be far from what is usual for its kind. */
export interface StrangeUnknown {
  readonly id: string;
  readonly words: string;
  readonly value: number;
  /** How many standard deviations it stands from its prior's mean. */
  readonly inSd: number;
}

export interface Trust {
  readonly strange: readonly StrangeUnknown[];
  readonly rows: readonly RowTrust[];
  readonly runs: readonly RunTrust[];
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly probability: number;
}

/** Looks for readings, runs and a whole fit that do not hang together. Nothing is dropped: it is only said. */
export function judgeTrust(estimate: Estimate): Trust {
  const rows = rowTrusts(estimate);
  const leverages = new Map(rows.map(({ observation, leverage }) => [observation, leverage]));
  const byRun = new Map<string, { chiSquare: number; degrees: number }>();
  estimate.rows.flat().forEach((row) => {
    if (row.observation < 0 || row.bound) return;
    const { run, values } = estimate.problem.observations[row.observation];
    const sum = byRun.get(run.id) ?? { chiSquare: 0, degrees: 0 };
    byRun.set(run.id, sum);
    const leverage = leverages.get(row.observation) ?? 0;
    sum.chiSquare += row.rightSide ** 2 + scatterOf(values);
    sum.degrees += Math.max(0, 1 - leverage) + values.length - 1;
  });
  const judged = estimate.problem.timeline.runs.flatMap((run): RunTrust[] => {
    const sum = byRun.get(run.id);
    if (!sum) return [];
    const probability = tail(sum.chiSquare, sum.degrees);
    return [
      {
        run,
        chiSquare: sum.chiSquare,
        degreesOfFreedom: sum.degrees,
        probability,
        improbable: probability < IMPROBABLE,
        returned: firstTouch(estimate, run),
        misread: misreadRun(estimate, run, rows),
      },
    ];
  });
  const runs = onlyTheWorstMisread(judged);
  // The whole fit counts what the priors had to give as well: two rules that differ show there, not in the readings.
  const scattered = estimate.problem.observations.reduce((sum, { values }) => sum + scatterOf(values), 0);
  const chiSquare = estimate.factor.residualSquares + scattered;
  const degreesOfFreedom = estimate.problem.observations.reduce((sum, { values }) => sum + values.length, 0);
  return {
    rows,
    runs,
    strange: strangeUnknowns(estimate),
    chiSquare,
    degreesOfFreedom,
    probability: tail(chiSquare, degreesOfFreedom),
  };
}

/**
 * One misread run drags others along: they, too, would fit better if they said nothing. Only the one whose correction
 * helps most is named; once it is corrected, the next shows itself.
 */
function onlyTheWorstMisread(runs: readonly RunTrust[]): readonly RunTrust[] {
  const least = Math.min(...runs.map(({ misread }) => misread?.squaresThen ?? Number.POSITIVE_INFINITY));
  return runs.map((run) => (run.misread && run.misread.squaresThen > least ? { ...run, misread: null } : run));
}

/** Change of all variables when the row is left out: −P a r/(1 − h), to first order. */
export function changeWithout(estimate: Estimate, row: FitRow, leverage: number): Float64Array {
  const product = covarianceTimes(estimate.factor, scatter(estimate.factor, row));
  const share = -row.rightSide / Math.max(1 - leverage, 1e-9);
  return product.map((value) => value * share);
}

function strangeUnknowns({ problem, values }: Estimate): readonly StrangeUnknown[] {
  return problem.variables.flatMap(({ id, words, kind, start, usualSd }, i) => {
    const inSd = (values[i] - start) / usualSd;
    const lasting = kind === "unknown" && /^(object|instrument) /.test(id);
    return lasting && Math.abs(inSd) > ODD ? [{ id, words, value: values[i], inSd }] : [];
  });
}

/** Whether the run came back to where it began; null when it did, or when the first station was not read again. */
function firstTouch({ problem }: Estimate, run: Run): RunTrust["returned"] {
  const ofRun = problem.observations.filter((observation) => observation.run.id === run.id);
  const instrument = ofRun[0]?.setup.instrument;
  const all = ofRun
    .flatMap(({ values, station }) => values.map((value) => ({ ...value, station })))
    .sort((a, b) => a.reading.at - b.reading.at || (a.reading.id < b.reading.id ? -1 : 1));
  const [first] = all;
  const last = all[all.length - 1];
  // Repeats in a row at one station are not a return.
  const between = all.some(({ station }) => station.key !== first?.station.key);
  if (!instrument || !between || last.station.key !== first.station.key) return null;
  const moved = Math.abs(last.value - first.value);
  const limit = limitOfReturn(instrument) + Math.max(stepOf(first.reading), stepOf(last.reading));
  return moved > limit ? { station: first.station.words, moved, limit } : null;
}

/** A leaf's step: two gaps that differ by less may be the same. */
function stepOf({ entries }: Reading): number {
  const [entry] = entries;
  return entry.form === "interval" ? entry.doesNotGo - entry.goes : 0;
}

function rowTrusts(estimate: Estimate): readonly RowTrust[] {
  return estimate.rows.flatMap((rows, stage) => {
    const leverageOf = leverageIn(estimate.covariances[stage]);
    return rows.flatMap((row): RowTrust[] => {
      if (row.observation < 0 || row.bound) return [];
      const leverage = Math.min(leverageOf(row), 1);
      const studentised = row.rightSide / Math.sqrt(Math.max(1 - leverage, 1e-6));
      const readings = estimate.problem.observations[row.observation].values.map((value) => value.reading);
      return [
        {
          observation: row.observation,
          readings,
          residual: row.rightSide * row.sd,
          studentised,
          leverage,
          odd: Math.abs(studentised) > ODD,
        },
      ];
    });
  });
}

/** h = aᵀ P a of a row of a stage. */
function leverageIn({ variables, matrix }: StageCovariance): (row: FitRow) => number {
  const place = new Map(variables.map((variable, index) => [variable, index]));
  const n = variables.length;
  return ({ columns, coefficients }) => {
    let sum = 0;
    for (let i = 0; i < columns.length; i++) {
      const a = place.get(columns[i]) as number;
      for (let j = 0; j < columns.length; j++) {
        sum += coefficients[i] * coefficients[j] * matrix[a * n + (place.get(columns[j]) as number)];
      }
    }
    return sum;
  };
}

/** Σ (value − mean)²/sd² of repeats at one station. */
function scatterOf(values: readonly { readonly value: number; readonly sd: number }[]): number {
  if (values.length < 2) return 0;
  let weight = 0;
  let mean = 0;
  for (const { value, sd } of values) {
    const w = 1 / Math.max(sd, 1e-6) ** 2;
    weight += w;
    mean += w * value;
  }
  mean /= weight;
  return values.reduce((sum, { value, sd }) => sum + ((value - mean) / Math.max(sd, 1e-6)) ** 2, 0);
}

/**
 * The least sum of squares as a function of one factor f on all readings of a run is a parabola,
 * S(f) = S(1) + 2(f − 1) r·c + (f − 1)²(c·c − gᵀPg), c the run's whitened readings, r the residuals, g = Aᵀc.
 * Only the slips that people make are tried.
 */
const SLIPS = [-1, 25.4, 1 / 25.4, 39.37, 0.0254, 10, 0.1] as const;

function misreadRun(estimate: Estimate, run: Run, rows: readonly RowTrust[]): RunTrust["misread"] {
  const g = new Float64Array(estimate.problem.variables.length);
  let rc = 0;
  let cc = 0;
  for (const row of estimate.rows.flat()) {
    if (row.observation < 0 || row.bound) continue;
    const { run: owner, values } = estimate.problem.observations[row.observation];
    if (owner.id !== run.id || values.length === 0) continue;
    const typed = values.reduce((sum, value) => sum + value.typed, 0) / values.length;
    const c = typed / row.sd;
    rc += row.rightSide * c;
    cc += c * c;
    for (let j = 0; j < row.columns.length; j++) g[row.columns[j]] += row.coefficients[j] * c;
  }
  if (cc === 0) return null;
  const product = covarianceTimes(estimate.factor, g);
  let explained = 0;
  for (let i = 0; i < g.length; i++) explained += g[i] * product[i];
  const curvature = Math.max(0, cc - explained);
  const now = estimate.factor.residualSquares;
  const squaresAt = (f: number) => now + 2 * (f - 1) * rc + (f - 1) ** 2 * curvature;
  // One odd reading pulls the whole run: a slip in all of them must explain more than a slip in that one.
  const oddest = Math.max(
    0,
    ...rows
      .filter((row) => estimate.problem.observations[row.observation].run.id === run.id)
      .map((row) => row.studentised ** 2),
  );
  let best: RunTrust["misread"] = null;
  for (const slip of SLIPS) {
    const then = squaresAt(slip);
    if (now - then > FAR_BETTER + oddest && (best === null || then < best.squaresThen)) {
      best = { factor: slip * run.factor, squaresNow: now, squaresThen: then };
    }
  }
  return best;
}

function scatter(factor: Factor, { columns, coefficients }: FitRow): Float64Array {
  const out = new Float64Array(factor.variables);
  for (let j = 0; j < columns.length; j++) out[columns[j]] += coefficients[j];
  return out;
}

function tail(chiSquare: number, degrees: number): number {
  return degrees > 0.5 ? 1 - chiSquareCdf(chiSquare, degrees) : 1;
}
