import { existsSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { StoreFailure } from "../app/event-store.ts";
import { type Diagnostic, refusal } from "../core/base/diagnostic.ts";
import { type Outcome, refuse, succeed } from "../core/base/outcome.ts";
import { backupFolder, copyDatabase, makeFolder, nameBeforeForm, newestBackup } from "./backup.ts";
import { type Connection, type Driver, libsqlDriver } from "./driver.ts";
import { damaged, diagnosticForFault, messageOf } from "./failure.ts";
import { readHeader } from "./header.ts";
import { pageFaults } from "./integrity.ts";
import { type Lock, takeLock } from "./lock.ts";
import { applicationId, type Migration, migrations } from "./migrations.ts";
import { SqliteStore } from "./sqlite-store.ts";
import { syncFolder } from "./sync-folder.ts";

export interface OpenOptions {
  /**
   * "write", as a rule: makes the database where there is none, brings it into the present form, and keeps every other
   * writer out until it is closed. "look": only reads, beside a server that may be running.
   */
  readonly to?: "write" | "look";
  readonly nowMs?: () => number;
  /** Tests bring their own. */
  readonly driver?: Driver;
  readonly migrations?: readonly Migration[];
}

/** A statement waits so long for a reader that is just emptying the log, or for a copy being made. */
const waitMs = 5000;

/**
 * Opens the database at a path and looks whether it is sound. Refused, with nothing in it touched: a file that is none of
 * ours, a database of a newer form, one that is damaged, one that another program writes to.
 */
export function openStore(path: string, options: OpenOptions = {}): Outcome<SqliteStore> {
  const chosen = { to: "write", nowMs: Date.now, driver: libsqlDriver, migrations, ...options } as const;
  let held: Lock | null = null;
  let connection: Connection | null = null;
  try {
    const problem = problemOfFile(path, chosen);
    if (problem !== null) return refuse(problem);
    if (chosen.to === "look") {
      connection = chosen.driver.open(path, { readOnly: true, waitMs });
      // What is of an older form is first brought forward, as writing would.
      if (versionOf(connection) === newest(chosen.migrations)) return finish(connection, null);
      connection.close();
    }
    makeFolder(dirname(path));
    const lock = takeLock(chosen.driver, path);
    if ("heldBy" in lock) return refuse(refusal("database-in-use", { file: path }, { process: lock.heldBy }));
    held = lock;
    const isNew = !existsSync(path);
    connection = chosen.driver.open(path, { readOnly: false, waitMs });
    if (versionOf(connection) === 0 && hasTables(connection))
      return giveUp(refusal("database-not-ours", { file: path }));
    connection.exec("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL");
    // What is deleted is also wiped from the pages that it stood on.
    connection.exec("PRAGMA foreign_keys = ON; PRAGMA secure_delete = ON");
    if (isNew) syncFolder(dirname(path));
    return finish(connection, lock);
  } catch (fault) {
    if (fault instanceof StoreFailure) return giveUp(fault.diagnostic);
    const told = diagnosticForFault(fault, path, newestBackup(path));
    return giveUp(
      told?.code === "database-damaged" || told?.code === "database-busy"
        ? told
        : refusal("database-unopenable", { file: path }, { reason: messageOf(fault) }),
    );
  }

  function finish(open: Connection, lock: Lock | null): Outcome<SqliteStore> {
    const [fault] = pageFaults(open, "quick");
    if (fault !== undefined) return giveUp(damaged(path, fault, newestBackup(path)));
    const remarks = lock === null ? [] : bringForward(open, path, chosen);
    return succeed(new SqliteStore({ path, connection: open, lock, ...chosen }), remarks);
  }

  function giveUp(diagnostic: Diagnostic): Outcome<SqliteStore> {
    connection?.close();
    held?.release();
    return refuse(diagnostic);
  }
}

type Chosen = Required<OpenOptions>;

/** What can be told of the file before SQLite opens it to write, so that nothing of it changes. */
function problemOfFile(path: string, { to, driver, migrations: known }: Chosen): Diagnostic | null {
  const where = { file: path };
  const header = readHeader(path);
  if (header.kind === "foreign") return refusal("database-not-ours", where);
  if (header.kind === "absent") return to === "look" ? refusal("database-not-there", where) : null;
  let version = header.kind === "ours" ? header.version : 0;
  // A newer form may so far stand only in the log beside the file.
  if ((statSync(`${path}-wal`, { throwIfNoEntry: false })?.size ?? 0) > 0) {
    const connection = driver.open(path, { readOnly: true, waitMs });
    version = versionOf(connection);
    connection.close();
  }
  if (version <= newest(known)) return null;
  return refusal("database-from-newer-version", where, { version, known: newest(known) });
}

/**
 * Takes the database through every form between its own and the present one, each in one transaction, after it has been
 * copied as it was. A new database goes the same way, with nothing to be copied.
 */
function bringForward(
  connection: Connection,
  path: string,
  { driver, migrations: known, nowMs }: Chosen,
): Diagnostic[] {
  const from = versionOf(connection);
  const steps = known.filter(({ to }) => to > from);
  if (steps.length === 0) return [];
  const copy = join(backupFolder(path), nameBeforeForm(newest(steps), nowMs()));
  if (from > 0) copyDatabase(connection, driver, path, copy);
  for (const { to, sql } of steps) {
    connection.exec("BEGIN IMMEDIATE");
    try {
      connection.exec(sql);
      connection.exec(`PRAGMA application_id = ${applicationId}; PRAGMA user_version = ${to}; COMMIT`);
    } catch (fault) {
      connection.exec("ROLLBACK");
      throw fault;
    }
  }
  // The form must stand in the file itself, where an older program sees it without touching anything.
  connection.prepare("PRAGMA wal_checkpoint(TRUNCATE)").all();
  if (from === 0) return [];
  const data = { from, to: newest(steps), copy };
  return [{ code: "database-brought-forward", severity: "remark", where: { file: path }, data }];
}

function newest(known: readonly Migration[]): number {
  return known.at(-1)?.to ?? 0;
}

function versionOf(connection: Connection): number {
  return Number(connection.prepare("PRAGMA user_version").get()?.[0] ?? 0);
}

function hasTables(connection: Connection): boolean {
  return Number(connection.prepare("SELECT count(*) FROM sqlite_schema").get()?.[0] ?? 0) > 0;
}
