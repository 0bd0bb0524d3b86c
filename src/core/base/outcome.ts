import type { Diagnostic } from "./diagnostic.ts";

/** The answer to something that bad input can spoil: a value with remarks, or the reasons why there is none. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly diagnostics: readonly Diagnostic[] }
  | { readonly ok: false; readonly diagnostics: readonly Diagnostic[] };

export function succeed<T>(value: T, diagnostics: readonly Diagnostic[] = []): Outcome<T> {
  return { ok: true, value, diagnostics };
}

export function refuse<T>(...diagnostics: readonly Diagnostic[]): Outcome<T> {
  return { ok: false, diagnostics };
}
