import type { DiagnosticCode } from "./diagnostic-words.ts";

/** Where something was found: a file, a line and column counted from 1, a field written as a path, an event's id. */
export interface Place {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  readonly field?: string;
  readonly event?: string;
}

export type Severity = "refusal" | "warning" | "remark";

/**
 * One thing to tell the user about their input. Carries data, not prose: the words come from one table
 * (`diagnostic-words.ts`), so that page and command line say the same and tests compare codes.
 */
export interface Diagnostic {
  readonly code: DiagnosticCode;
  readonly severity: Severity;
  readonly where: Place;
  readonly data: Readonly<Record<string, string | number>>;
}

export function refusal(code: DiagnosticCode, where: Place, data: Diagnostic["data"] = {}): Diagnostic {
  return { code, severity: "refusal", where, data };
}

export function warning(code: DiagnosticCode, where: Place, data: Diagnostic["data"] = {}): Diagnostic {
  return { code, severity: "warning", where, data };
}
