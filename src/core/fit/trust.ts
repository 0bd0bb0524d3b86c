import type { StageCovariance } from "../estimation/elimination.ts";
import type { Instrument } from "../instruments/instrument.ts";
import { chiSquareCdf } from "../numerics/distributions.ts";
import type { Estimate } from "./estimate.ts";
import { repeatsOf } from "./left-out.ts";
import type { FitRow } from "./linearise.ts";
import { type Misread, misreadRun } from "./misread-run.ts";
import type { Observation } from "./observations.ts";
import { limitBetween, ODD, repeatsTogether, slipsAmong } from "./repeats.ts";
import type { Reading, Run } from "./timeline.ts";

/** A run whose readings scatter this improbably is flagged. */
export const IMPROBABLE = 0.001;

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
  /** Which of its readings are odd, the oddest first: a slip among repeats, or else all of a row that stands away. */
  readonly oddOnes: readonly OddOne[];
}

/** A reading that the others contradict. */
export interface OddOne {
  readonly reading: Reading;
  /** What is read less what the others say, in the reading's unit. */
  readonly away: number;
  /** `away` by the standard deviation that it should have. */
  readonly inSd: number;
  /** Whom it contradicts: repeats of its own station, by their tool's scatter, or readings elsewhere. */
  readonly against: "repeats" | "rest";
  /** Of repeats that contradict one another another one may as well be the slip. */
  readonly isOpen: boolean;
}

export interface RunTrust {
  readonly run: Run;
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly probability: number;
  readonly improbable: boolean;
  /** The first station, read again at the end, had moved by more than twice the feel: the run is done again. */
  readonly returned: {
    readonly key: string;
    readonly station: string;
    readonly moved: number;
    readonly limit: number;
  } | null;
  /** All readings of the run would fit far better times this factor. */
  readonly misread: Misread | null;
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
  const returns = new Map(estimate.problem.timeline.runs.map((run) => [run.id, firstTouch(estimate, run)]));
  const rows = rowTrusts(estimate, returns);
  // One odd reading pulls the whole run: a slip in all of them must explain more than a slip in that one.
  const oddestOf = (of: Run) =>
    rows
      .filter(({ observation }) => estimate.problem.observations[observation].run.id === of.id)
      .reduce((most, { studentised }) => Math.max(most, studentised ** 2), 0);
  const scatters = estimate.problem.observations.map((observation) =>
    observation.values.length > 1 ? repeatsTogether(repeatsOf(estimate, observation)).squares : 0,
  );
  const leverages = new Map(rows.map(({ observation, leverage }) => [observation, leverage]));
  const byRun = new Map<string, { chiSquare: number; degrees: number }>();
  estimate.rows.flat().forEach((row) => {
    if (row.observation < 0 || row.bound) return;
    const { run, values } = estimate.problem.observations[row.observation];
    const sum = byRun.get(run.id) ?? { chiSquare: 0, degrees: 0 };
    byRun.set(run.id, sum);
    const leverage = leverages.get(row.observation) ?? 0;
    sum.chiSquare += row.rightSide ** 2 + scatters[row.observation];
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
        returned: returns.get(run.id) ?? null,
        misread: misreadRun(estimate, run, oddestOf(run)),
      },
    ];
  });
  const runs = onlyTheWorstMisread(judged);
  // The whole fit counts what the priors had to give as well: two rules that differ show there, not in the readings.
  const scattered = scatters.reduce((sum, squares) => sum + squares, 0);
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

function strangeUnknowns({ problem, values }: Estimate): readonly StrangeUnknown[] {
  return problem.variables.flatMap(({ id, words, kind, start, usualSd }, i) => {
    const inSd = (values[i] - start) / usualSd;
    const lasting = kind === "unknown" && /^(object|instrument) /.test(id);
    return lasting && Math.abs(inSd) > ODD ? [{ id, words, value: values[i], inSd }] : [];
  });
}

/**
 * Whether the run came back to where it began; null when it did, or when the first station was not read again. What is
 * read behind a move, a knock or a week is another machine's reading and no return; a run that goes on there is looked at
 * by itself. Where each reading has a homing of its own, or free drives, there is no place to come back to.
 */
function firstTouch({ problem }: Estimate, run: Run): RunTrust["returned"] {
  const ofRun = problem.observations.filter((observation) => observation.run.id === run.id);
  const instrument = ofRun[0]?.setup.instrument;
  if (!instrument || ofRun[0].check.homedAfresh) return null;
  for (const epoch of new Set(ofRun.map((observation) => observation.epoch))) {
    const returned = returnWithin(
      ofRun.filter((observation) => observation.epoch === epoch),
      instrument,
    );
    if (returned !== null) return returned;
  }
  return null;
}

function returnWithin(observations: readonly Observation[], instrument: Instrument): RunTrust["returned"] {
  const all = observations
    .flatMap(({ values, station }) => values.map((value) => ({ ...value, station })))
    .sort((a, b) => a.reading.at - b.reading.at || (a.reading.id < b.reading.id ? -1 : 1));
  const [first] = all;
  const last = all[all.length - 1];
  // Repeats in a row at one station are not a return.
  const between = all.some(({ station }) => station.key !== first?.station.key);
  if (!between || last.station.key !== first.station.key) return null;
  const moved = Math.abs(last.value - first.value);
  const limit = limitBetween(instrument, first.reading, last.reading);
  return moved > limit ? { key: first.station.key, station: first.station.words, moved, limit } : null;
}

function rowTrusts(estimate: Estimate, returns: ReadonlyMap<string, RunTrust["returned"]>): readonly RowTrust[] {
  return estimate.rows.flatMap((rows, stage) => {
    const leverageOf = leverageIn(estimate.covariances[stage]);
    return rows.flatMap((row): RowTrust[] => {
      if (row.observation < 0 || row.bound) return [];
      const leverage = Math.min(leverageOf(row), 1);
      const studentised = row.rightSide / Math.sqrt(remaining(leverage));
      const { values, run, station } = estimate.problem.observations[row.observation];
      const readings = values.map(({ reading }) => reading);
      const residual = row.rightSide * row.sd;
      // What has shifted between the first reading of a run and its return is no slip: the run is done again.
      const hasShifted = returns.get(run.id)?.key === station.key;
      const slips = readings.length > 1 && !hasShifted ? slipsOf(estimate, row, residual, leverage) : [];
      const isAway = Math.abs(studentised) > ODD;
      const away = residual / remaining(leverage);
      const oddOnes =
        slips.length > 0 || !isAway
          ? slips
          : readings.map((reading): OddOne => ({ reading, away, inSd: studentised, against: "rest", isOpen: false }));
      return [
        {
          observation: row.observation,
          readings,
          residual,
          studentised,
          leverage,
          odd: oddOnes.length > 0,
          oddOnes,
        },
      ];
    });
  });
}

/** Repeats are held against one another first; only where they agree is their mean held against the rest. */
function slipsOf(estimate: Estimate, row: FitRow, residual: number, leverage: number): readonly OddOne[] {
  const observation = estimate.problem.observations[row.observation];
  const repeats = repeatsOf(estimate, observation);
  const { mean, variance } = repeatsTogether(repeats);
  // Left out, the row is expected at its value less r/(1 − h), to within s²h/(1 − h); shape stays in the noise of its mean.
  const expected = {
    value: mean - residual / remaining(leverage),
    variance: (row.sd ** 2 * leverage) / remaining(leverage) + Math.max(0, row.sd ** 2 - variance),
  };
  return slipsAmong(repeats, expected).map(({ index, away, inSd, isOpen }) => ({
    reading: observation.values[index].reading,
    away,
    inSd,
    against: "repeats",
    isOpen,
  }));
}

/** 1 − h, above nothing. */
function remaining(leverage: number): number {
  return Math.max(1 - leverage, 1e-6);
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

function tail(chiSquare: number, degrees: number): number {
  return degrees > 0.5 ? 1 - chiSquareCdf(chiSquare, degrees) : 1;
}
