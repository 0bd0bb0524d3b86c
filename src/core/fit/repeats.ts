import { limitOfReturn } from "../instruments/reading-uncertainty.ts";
import type { Observation, ReadValue } from "./observations.ts";
import type { Reading } from "./timeline.ts";

/** A residual, or a difference of repeats, beyond this many standard deviations is odd. */
export const ODD = 3.5;

/** A reading's value with the variance of what is drawn anew each time it is taken. */
export interface Repeat {
  readonly value: number;
  readonly variance: number;
}

/** Repeats of one place, taken together. */
export interface RepeatsTogether {
  readonly mean: number;
  /** Of the mean. */
  readonly variance: number;
  /** Σ (value − mean)²/variance: about as many as there are repeats less one where they agree as the tool lets them. */
  readonly squares: number;
}

/**
 * The weighted mean of repeats. Where they scatter by more than their tool, what they showed stands in the place of what
 * the tool is said to do: u² = max(1, Q/(n − 1))/Σw, for equal weights max(s, f)²/n with s the experimental standard
 * deviation [GUM §4.2.2, §4.2.3] and f resolution and feel. A slip among them then blunts its own station and drags
 * nothing else along.
 *
 * @param repeats one at least
 */
export function repeatsTogether(repeats: readonly Repeat[]): RepeatsTogether {
  const { mean, variance, squares } = asTheToolSays(repeats);
  const widened = repeats.length > 1 ? Math.max(1, squares / (repeats.length - 1)) : 1;
  return { mean, variance: widened * variance, squares };
}

/** What all other readings lead to expect at a place: a value and the variance of a mean of repeats about it, their own scatter apart. */
export interface Expected {
  readonly value: number;
  readonly variance: number;
}

/** One of several repeats that contradicts the others. */
export interface Slip {
  /** Index among the repeats. */
  readonly index: number;
  /** What it is away from the mean of the others. */
  readonly away: number;
  /** `away` by the standard deviation that the difference should have. */
  readonly inSd: number;
  /** Whether another one may as well be the slip: only a third reading tells. */
  readonly isOpen: boolean;
}

/**
 * Which of several repeats contradict the others, judged by the tool's own scatter, the worst first. The one without
 * which the remaining ones agree best, with one another and with what is expected, is the slip. Where two are no worse
 * than each other (their squares differ by less than ODD²), both are named: only a third reading tells them apart.
 */
export function slipsAmong(repeats: readonly Repeat[], expected: Expected | null): readonly Slip[] {
  let left = repeats.map((_, index) => index);
  const slips: Slip[] = [];
  while (left.length > 1) {
    const awayOf = (index: number): Slip => {
      const others = asTheToolSays(left.filter((other) => other !== index).map((other) => repeats[other]));
      const away = repeats[index].value - others.mean;
      return { index, away, inSd: away / Math.sqrt(repeats[index].variance + others.variance), isOpen: false };
    };
    const worst = left.map(awayOf).sort((a, b) => Math.abs(b.inSd) - Math.abs(a.inSd));
    if (Math.abs(worst[0].inSd) <= ODD) break;
    const without = (index: number) =>
      squaresOf(
        left.filter((other) => other !== index).map((i) => repeats[i]),
        expected,
      );
    const byRest = worst.map((slip) => ({ slip, squares: without(slip.index) })).sort((a, b) => a.squares - b.squares);
    const isTold = byRest[1].squares - byRest[0].squares > ODD ** 2;
    if (isTold) slips.push(byRest[0].slip);
    else if (slips.length === 0) slips.push({ ...byRest[0].slip, isOpen: true }, { ...byRest[1].slip, isOpen: true });
    if (!isTold) break;
    left = left.filter((index) => index !== byRest[0].slip.index);
  }
  return slips;
}

/** How a reading stands to another one of its station, by what their tool lets repeats differ. */
export interface BesideRepeat {
  readonly reading: Reading;
  /** The later less the other. */
  readonly apart: number;
  /** As good as the same: within twice the feel and a leaf's step. */
  readonly isSame: boolean;
  /** Beyond what the tool's scatter explains. */
  readonly contradicts: boolean;
}

/** A reading of an observation beside each of the others. */
export function besideRepeats({ values, setup }: Observation, id: string): readonly BesideRepeat[] {
  const own = values.find(({ reading }) => reading.id === id);
  if (!own) return [];
  return values.flatMap((other): BesideRepeat[] => {
    if (other === own) return [];
    const apart = own.value - other.value;
    const limit = setup.instrument ? limitBetween(setup.instrument, own.reading, other.reading) : 2 * own.sd;
    return [
      {
        reading: other.reading,
        apart,
        isSame: Math.abs(apart) <= limit + ROUNDING,
        contradicts: Math.abs(apart) > ODD * Math.hypot(own.sd, other.sd),
      },
    ];
  });
}

/** By how much two readings of one place may differ before something has moved between them. */
export function limitBetween(instrument: Parameters<typeof limitOfReturn>[0], one: Reading, other: Reading): number {
  return limitOfReturn(instrument) + Math.max(stepOf(one), stepOf(other));
}

/** Of a reading that is one of several, with a homing of its own where it has one. */
export function repeatFrom({ value, sd }: ReadValue, ownHoming: number): Repeat {
  return { value, variance: sd ** 2 + ownHoming };
}

// Decimal marks are not halves and quarters: 0.45 − 0.40 is not quite 0.05.
const ROUNDING = 1e-9;

/** A leaf's step: two gaps that differ by less may be the same. */
function stepOf({ entries }: Reading): number {
  const [entry] = entries;
  return entry.form === "interval" ? entry.doesNotGo - entry.goes : 0;
}

/** The scatter of repeats with the square of their mean's distance from what is expected. */
function squaresOf(repeats: readonly Repeat[], expected: Expected | null): number {
  const { mean, variance, squares } = asTheToolSays(repeats);
  return squares + (expected ? (mean - expected.value) ** 2 / (variance + expected.variance) : 0);
}

function asTheToolSays(repeats: readonly Repeat[]): RepeatsTogether {
  let weight = 0;
  let sum = 0;
  for (const { value, variance } of repeats) {
    weight += 1 / floored(variance);
    sum += value / floored(variance);
  }
  const mean = sum / weight;
  const squares = repeats.reduce((total, { value, variance }) => total + (value - mean) ** 2 / floored(variance), 0);
  return { mean, variance: 1 / weight, squares };
}

// Nothing is read more finely than to a thousandth of a micrometre.
function floored(variance: number): number {
  return Math.max(variance, 1e-12);
}
