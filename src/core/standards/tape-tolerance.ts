import { invariant } from "../base/invariant.ts";

/** Class of a rule or tape, I the finest. */
export type TapeClass = "I" | "II" | "III";

const coefficients = {
  I: { a: 0.1, b: 0.1, end: 0.1 },
  II: { a: 0.3, b: 0.2, end: 0.2 },
  III: { a: 0.6, b: 0.4, end: 0.3 },
} as const;

/**
 * The most that a rule or tape may be out over a length, in mm, at 20 °C and at its stated pull.
 *
 *   a + b·L (+ c where one end of the length is the body of the tape, a hook or a butt), L in metres, rounded up to a
 *   whole metre
 *
 * Source: [MID MI-008 Chapter I].
 *
 * @param lengthMm positive
 */
export function tapePermissibleErrorMm(tapeClass: TapeClass, lengthMm: number, fromTerminalSurface = false): number {
  invariant(lengthMm > 0, "a length is positive");
  const { a, b, end } = coefficients[tapeClass];
  return a + b * Math.ceil(lengthMm / 1000) + (fromTerminalSurface ? end : 0);
}
