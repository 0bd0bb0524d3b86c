/**
 * The pull in a taut span from the note it gives when plucked: T = 4·µ·L²·f².
 *
 * Closed form, the lowest note of an ideal string [Taut string]; a belt is stiffer than a string and sounds a little
 * higher than this.
 *
 * @param spanMm free length between the points that hold it
 * @param mass_g_per_m mass of the string for its length
 * @returns the pull in N
 */
export function tensionFromNoteN(spanMm: number, mass_g_per_m: number, frequencyHz: number): number {
  return 4 * (mass_g_per_m / 1000) * (spanMm / 1000) ** 2 * frequencyHz ** 2;
}

/** The note of a taut span, f = √(T/µ)/(2L), in Hz; the other way round of `tensionFromNoteN`. [Taut string] */
export function noteFromTensionHz(spanMm: number, mass_g_per_m: number, tensionN: number): number {
  return Math.sqrt(tensionN / (mass_g_per_m / 1000)) / ((2 * spanMm) / 1000);
}
