/** One step of the database's form. Once released it is never changed again: databases went through it. */
export interface Migration {
  readonly to: number;
  readonly sql: string;
}

/** Marks a file as a database of this program: "KLTR". */
export const applicationId = 0x4b4c5452;

/*
 * The first form. Machines and photographs have short keys inside; outside they are known by their ids.
 *
 * The database itself sees to it that events are only added: an update, a deletion and a replacement of an event all
 * fail, whoever tries. The one exception is a machine that leaves with all that it has. Its events may go because the
 * machine's own row is gone by then, and that row goes only while `leaving` names it. What `leaving` names breaks a
 * reference into the empty table `nowhere`, so no transaction can end with a row in it: the exception lasts no longer
 * than the one transaction that takes the machine away.
 */
const firstForm = `
CREATE TABLE machines (
  key INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE CHECK (id <> ''),
  demonstration INTEGER NOT NULL CHECK (demonstration IN (0, 1))
) STRICT;

CREATE TABLE events (
  sequence INTEGER PRIMARY KEY AUTOINCREMENT CHECK (sequence > 0),
  machine INTEGER NOT NULL REFERENCES machines (key) ON DELETE CASCADE,
  id TEXT NOT NULL,
  kind TEXT NOT NULL,
  at TEXT NOT NULL,
  line TEXT NOT NULL,
  UNIQUE (machine, id)
) STRICT;

CREATE INDEX events_of_machine ON events (machine);

CREATE TABLE photographs (
  machine INTEGER NOT NULL REFERENCES machines (key) ON DELETE CASCADE,
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
  media_type TEXT NOT NULL CHECK (media_type IN ('image/jpeg', 'image/png', 'image/webp')),
  bytes BLOB CHECK (bytes IS NULL OR length(bytes) BETWEEN 1 AND 8000000),
  PRIMARY KEY (machine, sha256)
) STRICT;

CREATE TABLE nowhere (key INTEGER PRIMARY KEY CHECK (0)) STRICT;
CREATE TABLE leaving (
  machine INTEGER PRIMARY KEY REFERENCES nowhere (key) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TRIGGER event_never_changes BEFORE UPDATE ON events
BEGIN SELECT RAISE(ABORT, 'an event is never changed'); END;

CREATE TRIGGER event_never_goes_alone BEFORE DELETE ON events
WHEN EXISTS (SELECT 1 FROM machines WHERE key = OLD.machine)
BEGIN SELECT RAISE(ABORT, 'an event goes only with its whole machine'); END;

CREATE TRIGGER event_never_replaced BEFORE INSERT ON events
WHEN EXISTS (SELECT 1 FROM events WHERE sequence = NEW.sequence)
  OR EXISTS (SELECT 1 FROM events WHERE machine = NEW.machine AND id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'an event is never replaced'); END;

CREATE TRIGGER machine_never_changes BEFORE UPDATE ON machines
BEGIN SELECT RAISE(ABORT, 'a machine keeps its id'); END;

CREATE TRIGGER machine_never_replaced BEFORE INSERT ON machines
WHEN EXISTS (SELECT 1 FROM machines WHERE key = NEW.key OR id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'a machine is never replaced'); END;

CREATE TRIGGER machine_leaves_only_if_named BEFORE DELETE ON machines
WHEN NOT EXISTS (SELECT 1 FROM leaving WHERE machine = OLD.key)
BEGIN SELECT RAISE(ABORT, 'a machine leaves only by its own statement'); END;

CREATE TRIGGER machine_has_left AFTER DELETE ON machines
BEGIN DELETE FROM leaving WHERE machine = OLD.key; END;
`;

/** One for each form that was ever released, the oldest first and without a gap. */
export const migrations: readonly Migration[] = [{ to: 1, sql: firstForm }];
