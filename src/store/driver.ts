import { pathToFileURL } from "node:url";
import Libsql from "libsql";
import { invariant } from "../core/base/invariant.ts";

/** What a row holds. Whole numbers stay below 2⁵³; a number without a fraction is stored as one. */
export type Value = string | number | null | Uint8Array;

/** A prepared statement. Values are bound in order; rows come as lists in the order of their columns. */
export interface Statement {
  run(values?: readonly Value[]): { readonly lastRow: number };
  get(values?: readonly Value[]): readonly Value[] | undefined;
  all(values?: readonly Value[]): readonly (readonly Value[])[];
}

/** As much of SQLite as is asked for here. Faults are thrown with SQLite's own name for them under `code`. */
export interface Connection {
  prepare(sql: string): Statement;
  exec(sql: string): void;
  close(): void;
}

export interface Driver {
  /** `waitMs`: how long a statement waits for another connection that holds the database. */
  open(path: string, options: { readonly readOnly: boolean; readonly waitMs: number }): Connection;
}

/** SQLite as libsql has it, with prebuilt binaries for the usual systems. */
export const libsqlDriver: Driver = {
  open(path, { readOnly, waitMs }) {
    // There is no option for reading only; the URI has one.
    const database = opened(readOnly ? `${pathToFileURL(path).href}?mode=ro` : path);
    database.exec(`PRAGMA busy_timeout = ${waitMs}`);
    return {
      prepare: (sql) => statementFrom(database.prepare(sql)),
      exec: (sql) => {
        database.exec(sql);
      },
      close: () => {
        database.close();
      },
    };
  },
};

function opened(path: string): Libsql.Database {
  try {
    return new Libsql(path);
  } catch {
    // The driver says no more than a number here, and gives no name to the fault.
    throw Object.assign(new Error("the file can neither be opened nor made there"), { code: "SQLITE_CANTOPEN" });
  }
}

type LibsqlStatement = ReturnType<Libsql.Database["prepare"]>;

function statementFrom(statement: LibsqlStatement): Statement {
  let rows: LibsqlStatement | null = null;
  // Rows as objects carry a field of the driver's own, and blobs come in another class from get than from all.
  const inRows = () => {
    rows ??= statement.raw(true);
    return rows;
  };
  return {
    run: (values = []) => ({ lastRow: Number(statement.run(bound(values)).lastInsertRowid) }),
    get: (values = []) => inRows().get(bound(values)) as Value[] | undefined,
    all: (values = []) => inRows().all(bound(values)) as Value[][],
  };
}

/** One list, never spread: a lone object is taken for named values, and of anything else the driver ends the process. */
function bound(values: readonly Value[]): unknown[] {
  for (const value of values) {
    const fits = typeof value === "string" || typeof value === "number" || value === null;
    invariant(fits || value instanceof Uint8Array, "a value that SQLite can hold");
  }
  return values as unknown[];
}
