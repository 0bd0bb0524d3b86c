import { invariant } from "../base/invariant.ts";
import type { Entry } from "./entry.ts";
import type { InstrumentFigures } from "./instrument.ts";

/** An entry with a number in it. */
export type MeasuredEntry = Exclude<Entry, { readonly form: "verdict" }>;

/** What else bears on one reading, besides the instrument. */
export interface ReadingConditions {
  /** Two when the reading is the difference of two gaps or two lengths, each felt by itself. */
  readonly parts?: 1 | 2;
  /** What the tip moves by hand, in the core's unit: a standard uncertainty, added to the feel of every reading there. */
  readonly rock?: number;
}

/**
 * Standard uncertainty of one reading, in the core's unit, of all that is drawn anew each time it is taken. The
 * instrument's permissible error is not in it: that lasts (`lasting-error.ts`) and does not shrink with repeats.
 *
 *     value      u = √(d²/12 + s² + r²)
 *     interval   u = √(w²/12 + s² + r²)     about the mid point
 *     bound      u = √(s² + r²)             how soft the bound is
 *     difference of two                     √2 times the same, the rock counted once
 *
 * d resolution, w width from what goes to what does not, s setting or feel, r rock of the tip. A reading is equally
 * likely anywhere in a step or an interval, hence the 12 [GUM §4.3.7, F.2.2.1]; the rest adds in squares [GUM §5.1.2].
 */
export function readingUncertainty(
  instrument: InstrumentFigures,
  entry: MeasuredEntry,
  { parts = 1, rock = 0 }: ReadingConditions = {},
): number {
  invariant(rock >= 0, "a rock is not below nothing");
  const feel = feelOf(instrument);
  const width = entry.form === "interval" ? entry.doesNotGo - entry.goes : entry.form === "value" ? feel.resolution : 0;
  const counted = readsDifference(instrument) ? 1 : parts;
  return Math.sqrt(counted * (width ** 2 / 12 + feel.setting ** 2) + rock ** 2);
}

/** The number a reading stands for: an interval by its mid point, a bound by itself. */
export function bestValue(entry: MeasuredEntry): number {
  switch (entry.form) {
    case "value":
      return entry.value;
    case "interval":
      return (entry.goes + entry.doesNotGo) / 2;
    case "atLeast":
    case "atMost":
      return entry.bound;
  }
}

/** Readings of one place, taken several times without changing anything. */
export interface RepeatedReading {
  readonly mean: number;
  /** Of the mean, without the instrument's lasting error. */
  readonly standardUncertainty: number;
  /** s, the experimental standard deviation of one reading; 0 for a single one. */
  readonly scatter: number;
  readonly degreesOfFreedom: number;
}

/**
 * The mean of n readings, and its standard uncertainty.
 *
 *     u = √(d²/12 + max(s, f)²/n + r²)
 *
 * d resolution, f setting or feel, s experimental standard deviation [GUM §4.2.2], s/√n that of the mean [GUM §4.2.3],
 * r rock of the tip. Two departures, both to the safe side: repeats that agree better than the feel do not make it
 * smaller, since three equal readings are often luck (s from three is itself known to half [GUM Table E.1]); and the
 * step of the display and the rock do not average out, since a tip that is left alone stands in the same place.
 */
export function repeatedReading(
  instrument: InstrumentFigures,
  readings: readonly number[],
  { parts = 1, rock = 0 }: ReadingConditions = {},
): RepeatedReading {
  invariant(readings.length > 0, "a repeated reading has been taken at least once");
  const count = readings.length;
  const mean = readings.reduce((sum, reading) => sum + reading, 0) / count;
  const squares = readings.reduce((sum, reading) => sum + (reading - mean) ** 2, 0);
  const scatter = count > 1 ? Math.sqrt(squares / (count - 1)) : 0;
  const { resolution, setting } = feelOf(instrument);
  const counted = readsDifference(instrument) ? 1 : parts;
  const random = Math.max(scatter ** 2, counted * setting ** 2);
  const standardUncertainty = Math.sqrt((counted * resolution ** 2) / 12 + random / count + rock ** 2);
  return { mean, standardUncertainty, scatter, degreesOfFreedom: count - 1 };
}

/** By how much the first place, read again at the end of a run, may have moved before the run counts as spoilt. */
export function limitOfReturn(instrument: InstrumentFigures): number {
  const { resolution, setting } = feelOf(instrument);
  return Math.max(2 * setting, resolution);
}

function readsDifference(instrument: InstrumentFigures): boolean {
  return instrument.measures === "length" && instrument.readsDifference === true;
}

function feelOf(instrument: InstrumentFigures): { readonly resolution: number; readonly setting: number } {
  switch (instrument.measures) {
    case "length":
      return { resolution: instrument.resolutionMm ?? 0, setting: instrument.settingMm };
    case "slope":
      return { resolution: instrument.resolutionMmPerM ?? 0, setting: instrument.settingMmPerM };
    case "force":
      return { resolution: instrument.resolutionN ?? 0, setting: instrument.settingN ?? 0 };
    case "frequency":
      return { resolution: instrument.resolutionHz ?? 0, setting: instrument.settingHz ?? 0 };
    case "eye":
      return { resolution: 0, setting: 0 };
  }
}
