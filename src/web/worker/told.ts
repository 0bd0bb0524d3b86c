import type { Diagnostic } from "../../core/base/diagnostic.ts";
import type { Outcome } from "../../core/base/outcome.ts";
import type { Answer, Told } from "./protocol.ts";

/** Diagnostics as they go over to the page. */
export function toldFrom(diagnostics: readonly Diagnostic[]): readonly Told[] {
  return diagnostics.map(({ code, severity, where, data }) => ({
    code,
    refuses: severity === "refusal",
    data,
    field: where.field ?? null,
    line: where.line ?? null,
  }));
}

/** An outcome as an answer; what is good goes through `then` first. */
export function answerFrom<T, U>(outcome: Outcome<T>, then: (value: T) => U): Answer<U> {
  const told = toldFrom(outcome.diagnostics);
  return outcome.ok ? { ok: true, value: then(outcome.value), told } : { ok: false, told };
}
