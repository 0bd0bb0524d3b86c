-- A database of form 1 as the first release made it; never changed again.
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
INSERT INTO machines VALUES (1, '5b0e0f0c-52d1-4a39-9a3e-0f6f1f6f3a10', 1);
INSERT INTO machines VALUES (2, '7f9b7f3e-1c55-4d0e-8b6a-2f0f8a6c9d21', 0);
INSERT INTO events VALUES (1, 1, '019cecdc-8180-7000-8000-000000000000', 'machine-described', '2026-03-14T16:00:00+01:00', '{"v":1,"id":"019cecdc-8180-7000-8000-000000000000","at":"2026-03-14T16:00:00+01:00","kind":"machine-described","machine":{"name":"router in the shed","layout":"moving-gantry","travelMm":{"x":600,"y":500,"z":70},"railPlanesMm":{"left":-90,"right":690},"wheelbaseMm":140,"beamCentreMm":105,"toolFromBeamMm":-75}}');
INSERT INTO events VALUES (2, 1, '019cecdc-8568-7000-8000-000000000001', 'instrument-added', '2026-03-14T16:00:01+01:00', '{"v":1,"id":"019cecdc-8568-7000-8000-000000000001","at":"2026-03-14T16:00:01+01:00","kind":"instrument-added","instrument":{"id":"leaves","kind":"feeler-leaves"}}');
INSERT INTO events VALUES (3, 1, '019cecdc-8950-7000-8000-000000000002', 'run-begun', '2026-03-14T16:00:02+01:00', '{"v":1,"id":"019cecdc-8950-7000-8000-000000000002","at":"2026-03-14T16:00:02+01:00","kind":"run-begun","run":"gap-1","check":"gap-under-beam","instrument":"leaves"}');
INSERT INTO events VALUES (4, 1, '019cecdc-8d38-7000-8000-000000000003', 'reading-taken', '2026-03-14T16:00:03+01:00', '{"v":1,"id":"019cecdc-8d38-7000-8000-000000000003","at":"2026-03-14T16:00:03+01:00","kind":"reading-taken","run":"gap-1","station":"front left","unit":"mm","goes":0.6,"doesNotGo":0.65}');
INSERT INTO events VALUES (5, 1, '019cecdc-9120-7000-8000-000000000004', 'reading-taken', '2026-03-14T16:00:04+01:00', '{"v":1,"id":"019cecdc-9120-7000-8000-000000000004","at":"2026-03-14T16:00:04+01:00","kind":"reading-taken","run":"gap-1","station":"front right","unit":"mm","goes":0.45,"doesNotGo":0.5}');
INSERT INTO events VALUES (6, 2, '019cecdc-8180-7000-8000-000000000000', 'machine-described', '2026-03-14T16:00:00+01:00', '{"v":1,"id":"019cecdc-8180-7000-8000-000000000000","at":"2026-03-14T16:00:00+01:00","kind":"machine-described","machine":{"name":"router in the shed","layout":"moving-gantry","travelMm":{"x":600,"y":500,"z":70},"railPlanesMm":{"left":-90,"right":690},"wheelbaseMm":140,"beamCentreMm":105,"toolFromBeamMm":-75}}');
INSERT INTO events VALUES (7, 2, '019cecdc-8568-7000-8000-000000000001', 'instrument-added', '2026-03-14T16:00:01+01:00', '{"v":1,"id":"019cecdc-8568-7000-8000-000000000001","at":"2026-03-14T16:00:01+01:00","kind":"instrument-added","instrument":{"id":"leaves","kind":"feeler-leaves"}}');
INSERT INTO events VALUES (8, 2, '019cecdc-8950-7000-8000-000000000002', 'run-begun', '2026-03-14T16:00:02+01:00', '{"v":1,"id":"019cecdc-8950-7000-8000-000000000002","at":"2026-03-14T16:00:02+01:00","kind":"run-begun","run":"gap-1","check":"gap-under-beam","instrument":"leaves"}');
INSERT INTO events VALUES (9, 2, '019cecdc-8d38-7000-8000-000000000003', 'reading-taken', '2026-03-14T16:00:03+01:00', '{"v":1,"id":"019cecdc-8d38-7000-8000-000000000003","at":"2026-03-14T16:00:03+01:00","kind":"reading-taken","run":"gap-1","station":"front left","unit":"mm","goes":0.6,"doesNotGo":0.65}');
INSERT INTO events VALUES (10, 2, '019cecdc-9120-7000-8000-000000000004', 'reading-taken', '2026-03-14T16:00:04+01:00', '{"v":1,"id":"019cecdc-9120-7000-8000-000000000004","at":"2026-03-14T16:00:04+01:00","kind":"reading-taken","run":"gap-1","station":"front right","unit":"mm","goes":0.45,"doesNotGo":0.5}');
INSERT INTO events VALUES (11, 2, '019cecdc-9508-7000-8000-000000000005', 'note-added', '2026-03-14T16:00:05+01:00', '{"v":1,"id":"019cecdc-9508-7000-8000-000000000005","at":"2026-03-14T16:00:05+01:00","kind":"note-added","text":"it’s \"oiled\"\nand 3 × 2"}');
INSERT INTO events VALUES (12, 1, '019cecdc-cfa0-7000-8000-000000000014', 'photograph-added', '2026-03-14T16:00:20+01:00', '{"v":1,"id":"019cecdc-cfa0-7000-8000-000000000014","at":"2026-03-14T16:00:20+01:00","kind":"photograph-added","name":"bed.png","sha256":"3e00c2e0ac78896beca9932db9183b379a82f4c6cc33c928d3448e9237a27aea","mediaType":"image/png","bytes":67}');
INSERT INTO photographs VALUES (1, '3e00c2e0ac78896beca9932db9183b379a82f4c6cc33c928d3448e9237a27aea', 'image/png', x'89504e470d0a1a0a0000000d4948445200000001000000010800000000637263210000000a49444154789c6360000000020001637263210000000049454e4463726321');
CREATE INDEX events_of_machine ON events (machine);
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
PRAGMA application_id = 1263293522;
PRAGMA user_version = 1;
