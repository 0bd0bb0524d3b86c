import type { Diagnostic } from "../core/base/diagnostic.ts";
import { wordsForDiagnostic } from "../core/base/diagnostic-words.ts";
import type { Outcome } from "../core/base/outcome.ts";
import { columns, wrap } from "./terminal.ts";

/** 0 done; 1 the answer is "out" or "not proven" where asked for; 2 wrong use or bad input. */
export const exitStatus = { done: 0, gated: 1, badInput: 2 } as const;

/** Ends the command with status 2 once its diagnostics have been written. */
export class BadInput extends Error {
  readonly diagnostics: readonly Diagnostic[];

  constructor(diagnostics: readonly Diagnostic[]) {
    super("bad input");
    this.diagnostics = diagnostics;
  }
}

/** The value of an outcome; its warnings go to standard error, its refusals end the command. */
export function accepted<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new BadInput(outcome.diagnostics);
  for (const diagnostic of outcome.diagnostics) writeDiagnostic(diagnostic);
  return outcome.value;
}

export function writeDiagnostic({ code, severity, where, data }: Diagnostic): void {
  const words = wordsForDiagnostic(code, data);
  // A column without a line is one of a word of the command, which names itself.
  const inFile = where.line === undefined ? [where.file] : [where.file, where.line, where.column];
  const place = inFile.filter((part) => part !== undefined).join(":");
  // Many a phrase names the field itself.
  const field = where.field === undefined || words.what.includes(`“${where.field}”`) ? "" : ` (${where.field})`;
  const head = `${place === "" ? "kilter" : place}: ${severity === "refusal" ? "" : `${severity}: `}${words.what}${field} [${code}]`;
  const lines = [head, `  expected: ${words.expected}`, `  to do:    ${words.remedy}`];
  process.stderr.write(`${lines.map((line) => wrap(line, columns(process.stderr), "            ")).join("\n")}\n`);
}
