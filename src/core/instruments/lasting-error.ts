import { invariant } from "../base/invariant.ts";
import type { InstrumentFigures, LengthFigures } from "./instrument.ts";

/**
 * The one unknown that an instrument carries into all its readings, normal about nothing.
 *
 * - `offset`: every reading is off by the same amount; `sdMm`.
 * - `scale`: every reading is off in proportion: reading = true · (1 + scale), `sd` a plain number per unit of reading.
 * - `none`: it drops out, or there is none.
 */
export type LastingError =
  | { readonly form: "offset"; readonly sdMm: number }
  | { readonly form: "scale"; readonly sd: number }
  | { readonly form: "none" };

/** How the instrument is used in one run. */
export interface InstrumentUse {
  /** True where the run has a zero of its own, or a reading is the difference of two by the same instrument. */
  readonly cancels: boolean;
  /** True where a block of nearly the same size was read beside the work and the difference taken. */
  readonly againstSameSize?: boolean;
  /** Largest less smallest reading of the run, mm. */
  readonly spanMm?: number;
}

/**
 * What of an instrument's permissible error lasts through a run. All that is known of it is that it is no larger, so it
 * is equally likely anywhere within: sd = MPE/√3 [GUM §4.3.7]. It belongs to the instrument, not to the reading: reading
 * more often does not make it smaller; a second instrument, or a block of the same size beside the work, does.
 */
export function lastingError(instrument: InstrumentFigures, use: InstrumentUse): LastingError {
  switch (instrument.measures) {
    case "slope":
    case "eye":
      return { form: "none" };
    case "force":
    case "frequency":
      return use.cancels ? { form: "none" } : { form: "scale", sd: sdWithin(instrument.maxPermissibleErrorShare) };
    case "length":
      return use.cancels ? { form: "none" } : lastingErrorOfLength(instrument, use);
  }
}

/** The permissible error at a length, mm; the length counts in whole metres, rounded up [MID MI-008 Chapter I]. Null: none stated. */
export function maxPermissibleErrorAt(instrument: LengthFigures, lengthMm: number): number | null {
  invariant(lengthMm >= 0, "a length is not below nothing");
  if (!instrument.maxPermissibleError) return null;
  const { constantMm, perWholeMetreMm = 0 } = instrument.maxPermissibleError;
  // A hair over a whole metre is the conversion from inches, not another metre.
  return constantMm + perWholeMetreMm * Math.ceil(lengthMm / 1000 - 1e-9);
}

/** Standard uncertainty of something that lies anywhere within ± a limit, all places alike [GUM §4.3.7]. */
export function sdWithin(limit: number): number {
  return limit / Math.sqrt(3);
}

function lastingErrorOfLength(instrument: LengthFigures, use: InstrumentUse): LastingError {
  if (use.againstSameSize && instrument.againstSameSize) {
    return { form: "offset", sdMm: sdWithin(instrument.againstSameSize.maxPermissibleErrorMm) };
  }
  if (instrument.scaleStandardUncertaintyMmPerM !== undefined) {
    return { form: "scale", sd: instrument.scaleStandardUncertaintyMmPerM / 1000 };
  }
  if (instrument.lasts === "none" || !instrument.maxPermissibleError) return { form: "none" };

  const largestMm = Math.max(Math.abs(instrument.rangeMm?.from ?? 0), Math.abs(instrument.rangeMm?.to ?? 0));
  const atLargestMm = maxPermissibleErrorAt(instrument, largestMm)!;
  if (instrument.lasts === "scale") {
    invariant(largestMm > 0, "an error that grows with the length needs a range to grow over");
    return { form: "scale", sd: sdWithin(atLargestMm) / largestMm };
  }
  const small = instrument.smallRange;
  const isSmall = small !== undefined && use.spanMm !== undefined && use.spanMm <= small.withinMm;
  return { form: "offset", sdMm: sdWithin(isSmall ? small.maxPermissibleErrorMm : atLargestMm) };
}
