import type { Appended, EventStore, NewMachine, Photograph, StoredEvent, StoredMachine } from "../app/event-store.ts";
import { StoreFailure } from "../app/event-store.ts";
import { mostPhotographBytes, pictureTypeOf } from "../app/photograph.ts";
import type { Diagnostic } from "../core/base/diagnostic.ts";
import { invariant } from "../core/base/invariant.ts";
import type { LogEvent } from "../logbook/events.ts";
import { eventFromJson } from "../logbook/read-event.ts";
import { formatVersion } from "../logbook/schema/envelope.ts";
import { lineFromEvent } from "../logbook/write.ts";
import { copyDatabase, newestBackup } from "./backup.ts";
import type { Connection, Driver, Statement, Value } from "./driver.ts";
import { damaged, guarded } from "./failure.ts";
import { contentFaults, pageFaults, sha256Of } from "./integrity.ts";
import type { Lock } from "./lock.ts";
import type { Migration } from "./migrations.ts";

/** What a store is made of once its database has been opened and found sound (`openStore`). */
export interface OpenedDatabase {
  readonly path: string;
  readonly connection: Connection;
  readonly driver: Driver;
  readonly migrations: readonly Migration[];
  /** Null where the database is only looked at, beside a program that may write. */
  readonly lock: Lock | null;
}

interface Counted {
  readonly key: number;
  readonly machine: StoredMachine;
}

const selectEvents = "SELECT sequence, machines.id, line FROM events JOIN machines ON machines.key = events.machine";
const order = "ORDER BY sequence LIMIT ?";

/** Machines, events and photographs in one SQLite database. Made by `openStore`. */
export class SqliteStore implements EventStore {
  readonly path: string;
  readonly #database: OpenedDatabase;
  readonly #statements = new Map<string, Statement>();
  #counted: ReadonlyMap<string, Counted> = new Map();
  // What is known here follows the database only once a transaction is on the disk.
  #afterCommit: (() => void) | null = null;

  constructor(database: OpenedDatabase) {
    this.path = database.path;
    this.#database = database;
    this.#count();
  }

  machines(): readonly StoredMachine[] {
    // Whoever only looks may look while another program adds.
    if (this.#database.lock === null) this.#count();
    return Array.from(this.#counted.values(), ({ machine }) => machine);
  }

  addMachine({ id, demonstration }: NewMachine, events: readonly LogEvent[]): Appended {
    invariant(!this.#counted.has(id), "a new machine has a fresh id");
    return this.#inTransaction(() => {
      const { lastRow } = this.#statement("INSERT INTO machines (id, demonstration) VALUES (?, ?)").run([
        id,
        demonstration ? 1 : 0,
      ]);
      return this.#insert({ key: lastRow, machine: { id, demonstration, events: 0, lastSequence: 0 } }, events);
    });
  }

  append(machine: string, events: readonly LogEvent[]): Appended {
    const counted = this.#machine(machine);
    return this.#inTransaction(() => this.#insert(counted, events));
  }

  eventsAfter(
    sequence: number,
    { machine, most = -1 }: { readonly machine?: string; readonly most?: number } = {},
  ): readonly StoredEvent[] {
    const rows = this.#guarded(() => {
      if (machine === undefined)
        return this.#statement(`${selectEvents} WHERE sequence > ? ${order}`).all([sequence, most]);
      const { key } = this.#machine(machine);
      const ofMachine = `${selectEvents} WHERE events.machine = ? AND sequence > ? ${order}`;
      return this.#statement(ofMachine).all([key, sequence, most]);
    });
    return rows.map(([number, id, line]) => ({
      sequence: Number(number),
      machine: String(id),
      event: this.#event(String(line), Number(number)),
    }));
  }

  lastSequence(): number {
    const sql = "SELECT seq FROM sqlite_sequence WHERE name = 'events'";
    return Number(this.#guarded(() => this.#statement(sql).get())?.[0] ?? 0);
  }

  deleteMachine(machine: string): void {
    const { key } = this.#machine(machine);
    this.#inTransaction(() => {
      this.#statement("INSERT INTO leaving (machine) VALUES (?)").run([key]);
      this.#statement("DELETE FROM machines WHERE key = ?").run([key]);
    });
    this.#counted = new Map([...this.#counted].filter(([id]) => id !== machine));
    this.#emptyLog();
  }

  addPhotograph(machine: string, { sha256, mediaType, bytes }: Photograph): void {
    const { key } = this.#machine(machine);
    invariant(bytes.length <= mostPhotographBytes, "a photograph is no larger than it may be");
    invariant(pictureTypeOf(bytes) === mediaType, "a photograph is of the type that it says");
    invariant(sha256Of(bytes) === sha256, "a photograph's checksum is that of its bytes");
    this.#inTransaction(() =>
      this.#statement(
        `INSERT INTO photographs (machine, sha256, media_type, bytes) VALUES (?, ?, ?, ?)
         ON CONFLICT DO UPDATE SET media_type = excluded.media_type, bytes = excluded.bytes WHERE photographs.bytes IS NULL`,
      ).run([key, sha256, mediaType, bytes]),
    );
  }

  photograph(machine: string, sha256: string): Photograph | null {
    const { key } = this.#machine(machine);
    const sql = "SELECT media_type, bytes FROM photographs WHERE machine = ? AND sha256 = ?";
    const [mediaType, bytes]: readonly (Value | undefined)[] =
      this.#guarded(() => this.#statement(sql).get([key, sha256])) ?? [];
    if (!(bytes instanceof Uint8Array)) return null;
    return { sha256, mediaType: mediaType as Photograph["mediaType"], bytes };
  }

  removePhotographBytes(machine: string, sha256: string): void {
    const { key } = this.#machine(machine);
    this.#inTransaction(() =>
      this.#statement("UPDATE photographs SET bytes = NULL WHERE machine = ? AND sha256 = ?").run([key, sha256]),
    );
    this.#emptyLog();
  }

  backUp(path: string): void {
    const { connection, driver } = this.#database;
    copyDatabase(connection, driver, this.path, path);
  }

  /** Everything that can be looked at: pages, indexes, references, each event, each picture. None where all is well. */
  faults(): readonly Diagnostic[] {
    const { connection, migrations } = this.#database;
    const found = this.#guarded(() => {
      const pages = pageFaults(connection, "whole");
      // With a broken page the rest would only say the same in other words.
      return pages.length > 0 ? pages : contentFaults(connection, migrations);
    });
    return found.map((fault) => damaged(this.path, fault, newestBackup(this.path)));
  }

  close(): void {
    // Nobody waits at the end for a reader: the log is read at the next opening all the same.
    this.#database.connection.exec("PRAGMA busy_timeout = 0");
    this.#emptyLog();
    this.#statements.clear();
    this.#database.connection.close();
    this.#database.lock?.release();
  }

  #insert({ key, machine }: Counted, events: readonly LogEvent[]): Appended {
    const find = this.#statement("SELECT line FROM events WHERE machine = ? AND id = ?");
    const insert = this.#statement("INSERT INTO events (machine, id, kind, at, line) VALUES (?, ?, ?, ?, ?)");
    const added: StoredEvent[] = [];
    for (const event of events) {
      const line = lineFromEvent(event);
      const there = find.get([key, event.id]);
      if (there === undefined) {
        const { lastRow } = insert.run([key, event.id, event.kind, event.at, line]);
        added.push({ sequence: lastRow, machine: machine.id, event });
      } else invariant(this.#isSame(String(there[0]), line), "an event is never changed");
    }
    const lastSequence = added.at(-1)?.sequence ?? machine.lastSequence;
    const grown = { ...machine, events: machine.events + added.length, lastSequence };
    this.#afterCommit = () => {
      this.#counted = new Map([...this.#counted, [machine.id, { key, machine: grown }]]);
    };
    return { added, passedOver: events.length - added.length };
  }

  /** A line of an older version is lifted before it is compared. */
  #isSame(there: string, line: string): boolean {
    return there === line || lineFromEvent(this.#event(there, 0)) === line;
  }

  #event(line: string, sequence: number): LogEvent {
    let value: unknown;
    try {
      value = JSON.parse(line);
    } catch {
      throw this.#unreadable(sequence);
    }
    // What was written by this version was held to the schema then.
    if ((value as { v?: unknown } | null)?.v === formatVersion) return value as LogEvent;
    const event = eventFromJson(value, {});
    if (!event.ok) throw this.#unreadable(sequence);
    return event.value;
  }

  #unreadable(sequence: number): StoreFailure {
    const found = `event ${sequence} does not read as it was written`;
    return new StoreFailure(damaged(this.path, found, newestBackup(this.path)));
  }

  #machine(id: string): Counted {
    if (this.#database.lock === null) this.#count();
    const counted = this.#counted.get(id);
    invariant(counted !== undefined, "the machine is in the store");
    return counted;
  }

  #count(): void {
    const sql = `SELECT machines.key, machines.id, demonstration, count(sequence), coalesce(max(sequence), 0)
      FROM machines LEFT JOIN events ON events.machine = machines.key GROUP BY machines.key ORDER BY machines.key`;
    const rows = this.#guarded(() => this.#statement(sql).all());
    this.#counted = new Map(
      rows.map(([key, id, demonstration, events, lastSequence]) => [
        String(id),
        {
          key: Number(key),
          machine: {
            id: String(id),
            demonstration: demonstration === 1,
            events: Number(events),
            lastSequence: Number(lastSequence),
          },
        },
      ]),
    );
  }

  #inTransaction<T>(work: () => T): T {
    const { connection } = this.#database;
    return this.#guarded(() => {
      connection.exec("BEGIN IMMEDIATE");
      try {
        const result = work();
        connection.exec("COMMIT");
        this.#afterCommit?.();
        return result;
      } catch (fault) {
        try {
          connection.exec("ROLLBACK");
        } catch {
          // After a fault of the disk SQLite has rolled back by itself.
        }
        throw fault;
      } finally {
        this.#afterCommit = null;
      }
    });
  }

  #guarded<T>(work: () => T): T {
    return guarded(this.path, () => newestBackup(this.path), work);
  }

  #statement(sql: string): Statement {
    const held = this.#statements.get(sql);
    if (held !== undefined) return held;
    const statement = this.#database.connection.prepare(sql);
    this.#statements.set(sql, statement);
    return statement;
  }

  /** Brings the log's pages into the database, so that nothing removed lingers there; another time where it cannot be. */
  #emptyLog(): void {
    if (this.#database.lock === null) return;
    try {
      this.#statement("PRAGMA wal_checkpoint(TRUNCATE)").all();
    } catch {
      // The pages stay in the log, which is as good as in the database.
    }
  }
}
