import { invariant } from "../base/invariant.ts";

/** Grade of a steel square, 00 the finest. */
export type SquareGrade = "00" | "0" | "1" | "2";

// Micrometres at no length, and millimetres of length for one micrometre more.
const coefficients = {
  "00": { base: 2, perMicrometre: 100 },
  "0": { base: 5, perMicrometre: 50 },
  "1": { base: 10, perMicrometre: 20 },
  "2": { base: 20, perMicrometre: 10 },
} as const;

/**
 * How far the end of a square's blade may stand from upright, in mm, over the length of the blade.
 *
 *   t = 2 + L/100, 5 + L/50, 10 + L/20, 20 + L/10 µm for grades 00, 0, 1, 2, rounded up to a whole µm
 *
 * Source: [DIN 875-1].
 *
 * @param lengthMm of the longer leg, positive
 */
export function squareLimitMm(grade: SquareGrade, lengthMm: number): number {
  invariant(lengthMm > 0, "a length is positive");
  const { base, perMicrometre } = coefficients[grade];
  return Math.ceil(base + lengthMm / perMicrometre) / 1000;
}
