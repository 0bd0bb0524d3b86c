/**
 * One reading as it was taken, in the core's units (mm, mm/m, Hz or N, by what the instrument measures).
 *
 * - `value`: a number read off the instrument.
 * - `interval`: the gap lies between the thickest stack that goes in and the thinnest that does not.
 * - `atLeast`: even the thickest stack goes in, so the gap is `bound` or more.
 * - `atMost`: not even the thinnest leaf goes in, so the gap is `bound` or less.
 * - `verdict`: a look or a push with no number to it; `passed` is the answer.
 */
export type Entry =
  | { readonly form: "value"; readonly value: number }
  | { readonly form: "interval"; readonly goes: number; readonly doesNotGo: number }
  | { readonly form: "atLeast"; readonly bound: number }
  | { readonly form: "atMost"; readonly bound: number }
  | { readonly form: "verdict"; readonly passed: boolean };
