import { StoreFailure } from "../app/event-store.ts";
import { type Diagnostic, refusal } from "../core/base/diagnostic.ts";

/**
 * What a fault of the driver means to whoever uses the database at `file`; null where it is a slip in this program, such
 * as a constraint that does not hold. `backup` is the newest one, or "".
 */
export function diagnosticForFault(fault: unknown, file: string, backup: string): Diagnostic | null {
  const code = codeOf(fault);
  const where = { file };
  if (/^SQLITE_(CORRUPT|NOTADB)/.test(code)) return damaged(file, messageOf(fault), backup);
  if (/^SQLITE_(BUSY|LOCKED|PROTOCOL)/.test(code)) return refusal("database-busy", where);
  if (code.startsWith("SQLITE_FULL")) return refusal("database-full", where);
  if (/^SQLITE_(IOERR|READONLY|CANTOPEN|PERM|NOLFS)/.test(code)) {
    return refusal("database-unwritable", where, { reason: messageOf(fault) });
  }
  return null;
}

export function damaged(file: string, found: string, backup: string): Diagnostic {
  return refusal("database-damaged", { file }, { found, backup, database: file });
}

/** Does what is given; a fault of the disk or the database is thrown on as a `StoreFailure`, any other as it is. */
export function guarded<T>(file: string, newestBackup: () => string, work: () => T): T {
  try {
    return work();
  } catch (fault) {
    const diagnostic = diagnosticForFault(fault, file, newestBackup());
    throw diagnostic === null ? fault : new StoreFailure(diagnostic);
  }
}

/** Why the system or the database refused, in its own words. */
export function messageOf(fault: unknown): string {
  const { message } = fault as { readonly message?: unknown };
  if (typeof message !== "string") return "no reason is given";
  // "ENOENT: no such file or directory, open '…'" and the like: the place is told elsewhere.
  const [, told] = /^E[A-Z]+: ([^,]*)/.exec(message) ?? [];
  return told ?? message;
}

export function codeOf(fault: unknown): string {
  const { code } = fault as { readonly code?: unknown };
  return typeof code === "string" ? code : "";
}
