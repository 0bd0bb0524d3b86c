import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readdirSync, renameSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";
import { StoreFailure } from "../app/event-store.ts";
import { refusal } from "../core/base/diagnostic.ts";
import { wordsForDiagnostic } from "../core/base/diagnostic-words.ts";
import type { Connection, Driver } from "./driver.ts";
import { damaged, guarded, messageOf } from "./failure.ts";
import { pageFaults } from "./integrity.ts";
import { syncFolder } from "./sync-folder.ts";

const namePattern = /^kilter-(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z\.db$/;

/** The folder beside a database that its backups go to. */
export function backupFolder(database: string): string {
  return join(dirname(database), "backups");
}

/** "kilter-20260314T152205Z.db": the instant in the basic form of ISO 8601, which holds no colon. */
export function backupName(instantMs: number): string {
  return `kilter-${stamp(instantMs)}.db`;
}

/** The name under which a database is kept as it was before it was brought into a newer form. */
export function nameBeforeForm(version: number, instantMs: number): string {
  return `before-form-${version}-${stamp(instantMs)}.db`;
}

export interface Backup {
  readonly path: string;
  readonly atMs: number;
}

/** Backups in a folder by their names, the newest first; none where there is no folder. */
export function backupsIn(folder: string): readonly Backup[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .flatMap((name) => {
      const [, year, month, day, hour, minute, second] = namePattern.exec(name) ?? [];
      if (year === undefined) return [];
      const atMs = Date.parse(`${year}-${month}-${day}T${hour}:${minute}:${second}Z`);
      return Number.isNaN(atMs) ? [] : [{ path: join(folder, name), atMs }];
    })
    .sort((a, b) => b.atMs - a.atMs);
}

/** The path of the newest backup beside a database, "" where there is none. */
export function newestBackup(database: string): string {
  try {
    return backupsIn(backupFolder(database))[0]?.path ?? "";
  } catch {
    return "";
  }
}

/**
 * Removes all but so many of the newest backups in a folder, and what backups that were cut short have left. Files of
 * other names stay, those kept before a new form among them. Backups that are dated later than now come from a clock that
 * went wrong, so they count as the oldest and go first.
 */
export function pruneBackups(folder: string, keep: number, nowMs: number): readonly string[] {
  const all = backupsIn(folder);
  const trusted = [...all.filter(({ atMs }) => atMs <= nowMs), ...all.filter(({ atMs }) => atMs > nowMs)];
  const spare = trusted.slice(Math.max(1, keep)).map(({ path }) => path);
  const parts = readdirSync(folder).filter((name) => name.endsWith(".part") && namePattern.test(name.slice(0, -5)));
  for (const path of [...spare, ...parts.map((name) => join(folder, name))]) rmSync(path, { force: true });
  return spare;
}

/**
 * Copies the database as it is at this moment to a path that must not exist yet. The copy is made beside its place,
 * looked through from end to end, put on the disk and only then given its name.
 */
export function copyDatabase(connection: Connection, driver: Driver, database: string, path: string): void {
  if (existsSync(path)) throw new StoreFailure(refusal("backup-there", { file: path }));
  const part = `${path}.part`;
  try {
    makeFolder(dirname(path));
    rmSync(part, { force: true });
    guarded(
      database,
      () => newestBackup(database),
      () => connection.prepare("VACUUM INTO ?").run([part]),
    );
    const fault = faultOfCopy(driver, part);
    if (fault !== null) throw new StoreFailure(damaged(database, fault, newestBackup(database)));
    syncFile(part);
    renameSync(part, path);
    syncFolder(dirname(path));
  } catch (fault) {
    removeIfThere(part);
    if (fault instanceof StoreFailure && fault.diagnostic.code === "database-damaged") throw fault;
    throw new StoreFailure(refusal("backup-failed", { file: path }, { reason: reasonOf(fault) }));
  }
}

function removeIfThere(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // Where nothing could be written there is nothing to remove.
  }
}

function reasonOf(fault: unknown): string {
  if (!(fault instanceof StoreFailure)) return messageOf(fault);
  const { code, data } = fault.diagnostic;
  return String(data.reason ?? wordsForDiagnostic(code, data).what);
}

/** A folder that only its user may look into, where it is not there yet. */
export function makeFolder(folder: string): void {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
}

function faultOfCopy(driver: Driver, path: string): string | null {
  const copy = driver.open(path, { readOnly: true, waitMs: 0 });
  try {
    return pageFaults(copy, "quick")[0] ?? null;
  } finally {
    copy.close();
  }
}

function syncFile(path: string): void {
  const handle = openSync(path, "r+");
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function stamp(instantMs: number): string {
  return new Date(instantMs).toISOString().replace(/[-:]|\.\d+/g, "");
}
