import { type Diagnostic, type Place, refusal } from "../core/base/diagnostic.ts";

/** So many things wrong are told one by one; the rest is counted. */
export const mostDiagnostics = 20;

/** The first of many diagnostics, and one that says how many more there are. */
export function diagnosticsUpTo(diagnostics: readonly Diagnostic[], where: Place): readonly Diagnostic[] {
  const rest = diagnostics.length - mostDiagnostics;
  if (rest <= 0) return diagnostics;
  return [...diagnostics.slice(0, mostDiagnostics), refusal("logbook-more", where, { count: rest })];
}
