import { createHash } from "node:crypto";
import { eventFromJson } from "../logbook/read-event.ts";
import { formatVersion } from "../logbook/schema/envelope.ts";
import { lineFromEvent } from "../logbook/write.ts";
import type { Connection } from "./driver.ts";
import type { Migration } from "./migrations.ts";

/** What is wrong with the pages, in SQLite's words; none where all is well. "whole" also compares indexes with tables. */
export function pageFaults(connection: Connection, how: "quick" | "whole"): readonly string[] {
  const pragma = how === "quick" ? "PRAGMA quick_check(5)" : "PRAGMA integrity_check(20)";
  const told = connection
    .prepare(pragma)
    .all()
    .map(([line]) => String(line));
  return told.length === 1 && told[0] === "ok" ? [] : told;
}

/**
 * What is wrong with what the rows say: references into nothing, an event that no longer reads as it was written, a
 * picture that is not the one of its checksum, a rule of the database that somebody has taken out.
 */
export function contentFaults(connection: Connection, migrations: readonly Migration[]): readonly string[] {
  return [
    ...connection
      .prepare("PRAGMA foreign_key_check")
      .all()
      .map(([table, row]) => `row ${row} of ${table} belongs to nothing`),
    ...triggersGone(connection, migrations).map((name) => `the rule ${name} is missing`),
    ...eventFaults(connection),
    ...pictureFaults(connection),
  ];
}

function triggersGone(connection: Connection, migrations: readonly Migration[]): readonly string[] {
  const wanted = new Set<string>();
  for (const { sql } of migrations) {
    for (const [, drops, name] of sql.matchAll(/\b(?:CREATE|(DROP)) TRIGGER (\w+)/g)) {
      if (drops === undefined) wanted.add(name!);
      else wanted.delete(name!);
    }
  }
  for (const [name] of connection.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'").all()) {
    wanted.delete(String(name));
  }
  return [...wanted];
}

const rowsAtOnce = 5000;

function eventFaults(connection: Connection): readonly string[] {
  const faults: string[] = [];
  const next = connection.prepare(
    `SELECT sequence, id, kind, at, line FROM events WHERE sequence > ? ORDER BY sequence LIMIT ${rowsAtOnce}`,
  );
  for (let last = 0; ; ) {
    const rows = next.all([last]);
    for (const [sequence, id, kind, at, line] of rows) {
      if (!isWhole({ id: String(id), kind: String(kind), at: String(at) }, String(line))) {
        faults.push(`event ${sequence} does not read as it was written`);
      }
      last = Number(sequence);
    }
    if (rows.length < rowsAtOnce) return faults;
  }
}

function isWhole(columns: { readonly id: string; readonly kind: string; readonly at: string }, line: string): boolean {
  let value: { readonly v?: unknown };
  try {
    value = JSON.parse(line) as typeof value;
  } catch {
    return false;
  }
  const event = eventFromJson(value, {});
  if (!event.ok) return false;
  const { id, kind, at } = event.value;
  // An event of an older version is written otherwise today, and its kind may have another name.
  if (value.v !== formatVersion) return id === columns.id;
  return id === columns.id && kind === columns.kind && at === columns.at && lineFromEvent(event.value) === line;
}

function pictureFaults(connection: Connection): readonly string[] {
  const one = connection.prepare("SELECT bytes FROM photographs WHERE rowid = ?");
  return connection
    .prepare("SELECT rowid, sha256 FROM photographs WHERE bytes IS NOT NULL")
    .all()
    .flatMap(([row, sha256]) => {
      const [bytes] = one.get([row!]) ?? [];
      const isSame = bytes instanceof Uint8Array && sha256Of(bytes) === sha256;
      return isSame ? [] : [`the picture ${String(sha256).slice(0, 12)}… is not as it was taken in`];
    });
}

export function sha256Of(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}
