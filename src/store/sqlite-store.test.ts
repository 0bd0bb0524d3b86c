import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { sampleEvent, soundLogbook } from "../../tests/logbook/sample-events.ts";
import { jfif, segment, smallJpeg } from "../../tests/store/small-pictures.ts";
import { closed, openedStore, tidyUp } from "../../tests/store/temporary-store.ts";
import { StoreFailure } from "../app/event-store.ts";
import { photographFromBytes } from "../app/photograph.ts";
import type { LogEvent } from "../logbook/events.ts";
import { lineFromEvent } from "../logbook/write.ts";
import { type Connection, libsqlDriver } from "./driver.ts";
import { sha256Of } from "./integrity.ts";
import type { SqliteStore } from "./sqlite-store.ts";

tidyUp();

const homed = (n: number) => sampleEvent(n, { kind: "homed" });

function storeWithMachine(id = "shed"): SqliteStore {
  const store = openedStore();
  store.addMachine({ id, demonstration: false }, soundLogbook());
  return store;
}

/** Somebody else's tool at the same file, with none of our settings. */
function foreignTool(store: SqliteStore): Connection {
  return libsqlDriver.open(store.path, { readOnly: false, waitMs: 1000 });
}

/** Names of the files beside the database, itself included, in which the bytes stand anywhere. */
function filesWith(bytes: Uint8Array, { path }: SqliteStore): readonly string[] {
  return readdirSync(dirname(path)).filter((name) =>
    readFileSync(join(dirname(path), name)).includes(Buffer.from(bytes)),
  );
}

const photograph = (() => {
  const outcome = photographFromBytes(smallJpeg(), sha256Of);
  if (!outcome.ok) throw new Error("the small picture is sound");
  return outcome.value;
})();

describe("a store", () => {
  test("is empty when it is new", () => {
    const store = openedStore();
    expect(store.machines()).toEqual([]);
    expect(store.eventsAfter(0)).toEqual([]);
    expect(store.lastSequence()).toBe(0);
    expect(store.faults()).toEqual([]);
  });

  test("gives back what was added, also after it has been closed and opened again", () => {
    const first = storeWithMachine();
    first.addMachine({ id: "lent", demonstration: true }, soundLogbook());
    first.append("shed", [homed(9)]);
    const store = openedStore(closed(first));
    expect(store.machines()).toEqual([
      { id: "shed", demonstration: false, events: 6, lastSequence: 11 },
      { id: "lent", demonstration: true, events: 5, lastSequence: 10 },
    ]);
    const ofShed = store.eventsAfter(0, { machine: "shed" });
    expect(ofShed.map(({ event }) => event)).toEqual([...soundLogbook(), homed(9)]);
    expect(ofShed.map(({ sequence }) => sequence)).toEqual([1, 2, 3, 4, 5, 11]);
    expect(store.eventsAfter(4, { most: 3 }).map(({ sequence, machine }) => [sequence, machine])).toEqual([
      [5, "shed"],
      [6, "lent"],
      [7, "lent"],
    ]);
    expect(store.lastSequence()).toBe(11);
  });

  test("keeps each event as the line that a logbook has of it", () => {
    const store = storeWithMachine();
    const rows = foreignTool(store).prepare("SELECT id, kind, at, line FROM events ORDER BY sequence").all();
    expect(rows).toEqual(soundLogbook().map((event) => [event.id, event.kind, event.at, lineFromEvent(event)]));
  });

  test("says what an append has added, with its sequences, and passes over what is there", () => {
    const store = storeWithMachine();
    const { added, passedOver } = store.append("shed", [...soundLogbook(), homed(9), homed(9)]);
    expect(added).toEqual([{ sequence: 6, machine: "shed", event: homed(9) }]);
    expect(passedOver).toBe(6);
    expect(store.machines()[0]).toMatchObject({ events: 6, lastSequence: 6 });
  });

  test("takes nothing of a batch that holds another event under an id that is there", () => {
    const store = storeWithMachine();
    const other = { ...soundLogbook()[3], goes: 0.55 } as LogEvent;
    expect(() => store.append("shed", [homed(9), other])).toThrow("never changed");
    expect(store.machines()[0]).toMatchObject({ events: 5, lastSequence: 5 });
    expect(store.eventsAfter(5)).toEqual([]);
    expect(store.append("shed", [homed(9)]).added).toHaveLength(1);
  });

  test("never gives a sequence out twice, not even that of a machine that has left", () => {
    const store = storeWithMachine();
    store.deleteMachine("shed");
    expect(store.lastSequence()).toBe(5);
    store.addMachine({ id: "shed", demonstration: false }, [soundLogbook()[0]!]);
    expect(store.eventsAfter(0).map(({ sequence }) => sequence)).toEqual([6]);
  });

  test("lets a machine leave with all that it has, and nothing else with it", () => {
    const store = storeWithMachine();
    store.addMachine({ id: "lent", demonstration: false }, soundLogbook());
    for (const machine of ["shed", "lent"]) store.addPhotograph(machine, photograph);
    store.deleteMachine("shed");
    expect(store.machines().map(({ id }) => id)).toEqual(["lent"]);
    expect(store.eventsAfter(0)).toHaveLength(5);
    expect(store.photograph("lent", photograph.sha256)).not.toBeNull();
    expect(() => store.eventsAfter(0, { machine: "shed" })).toThrow("in the store");
    const counts = "SELECT (SELECT count(*) FROM photographs), (SELECT count(*) FROM leaving)";
    expect(foreignTool(store).prepare(counts).get()).toEqual([1, 0]);
    expect(store.faults()).toEqual([]);
  });
});

describe("the database itself", () => {
  test.each([
    ["UPDATE events SET line = '{}' WHERE sequence = 2", "never changed"],
    ["UPDATE events SET sequence = sequence + 100", "never changed"],
    ["DELETE FROM events WHERE sequence = 2", "only with its whole machine"],
    ["DELETE FROM events", "only with its whole machine"],
    ["REPLACE INTO events SELECT * FROM events WHERE sequence = 2", "never replaced"],
    [
      "REPLACE INTO events (machine, id, kind, at, line) SELECT machine, id, kind, at, '{}' FROM events",
      "never replaced",
    ],
    [
      "REPLACE INTO events (sequence, machine, id, kind, at, line) SELECT sequence, machine, 'x', kind, at, '{}' FROM events WHERE sequence = 2",
      "never replaced",
    ],
    ["DELETE FROM machines", "only by its own statement"],
    ["REPLACE INTO machines SELECT * FROM machines", "never replaced"],
    ["UPDATE machines SET id = 'other'", "keeps its id"],
    ["INSERT INTO leaving SELECT key FROM machines", "FOREIGN KEY"],
    ["BEGIN; INSERT INTO leaving SELECT key FROM machines; COMMIT", "FOREIGN KEY"],
    ["INSERT INTO nowhere VALUES (1)", "CHECK"],
    ["INSERT INTO events (machine, id, kind, at, line) VALUES (77, 'a', 'b', 'c', 'd')", "FOREIGN KEY"],
  ])("refuses, whoever asks: %s", (sql, words) => {
    const store = storeWithMachine();
    const tool = foreignTool(store);
    expect(() => tool.exec(sql)).toThrow(words);
    if (sql.startsWith("BEGIN")) tool.exec("ROLLBACK");
    expect(store.faults()).toEqual([]);
    expect(store.eventsAfter(0).map(({ event }) => event)).toEqual(soundLogbook());
  });

  test("is found at fault where somebody has taken a rule out and changed an event", () => {
    const store = storeWithMachine();
    const tool = foreignTool(store);
    tool.exec("DROP TRIGGER event_never_changes");
    expect(store.faults().map(({ data }) => data.found)).toEqual(["the rule event_never_changes is missing"]);
    tool.exec("UPDATE events SET line = replace(line, '0.65', '0.75') WHERE sequence = 4");
    // What reads as an event of today may be another one than was written: only its form can be looked at.
    expect(store.faults()).toHaveLength(1);
    tool.exec("UPDATE events SET line = replace(line, ':', ' :') WHERE sequence = 4");
    tool.exec("UPDATE events SET at = '2026' WHERE sequence = 5");
    expect(store.faults().map(({ data }) => data.found)).toEqual([
      "the rule event_never_changes is missing",
      "event 4 does not read as it was written",
      "event 5 does not read as it was written",
    ]);
  });

  test("that holds an event which no longer reads says so in words instead of leaving it out", () => {
    const store = storeWithMachine();
    foreignTool(store).exec("DROP TRIGGER event_never_changes; UPDATE events SET line = 'x' WHERE sequence = 4");
    const read = () => store.eventsAfter(0);
    expect(read).toThrow(StoreFailure);
    expect(read).toThrow("database-damaged");
  });
});

describe("photographs", () => {
  test("come back as they were taken in, each machine with its own", () => {
    const store = storeWithMachine();
    store.addPhotograph("shed", photograph);
    store.addPhotograph("shed", photograph);
    const back = store.photograph("shed", photograph.sha256);
    expect(back).toMatchObject({ sha256: photograph.sha256, mediaType: "image/jpeg" });
    expect(Array.from(back!.bytes)).toEqual(Array.from(photograph.bytes));
    expect(store.photograph("shed", "0".repeat(64))).toBeNull();
  });

  test("whose bytes have been removed are not there, leave nothing behind in the files, and may come again", () => {
    // Long enough for pages of its own, with something in them that can be looked for.
    const mark = Array.from("what must not stay", (letter) => letter.charCodeAt(0));
    const bytes = smallJpeg([
      ...jfif,
      ...segment(
        0xdb,
        Array.from({ length: 60_000 }, (_, n) => mark[n % mark.length]!),
      ),
    ]);
    const large = { sha256: sha256Of(bytes), mediaType: "image/jpeg", bytes } as const;
    const store = storeWithMachine();
    store.addPhotograph("shed", large);
    expect(filesWith(Uint8Array.from(mark), store)).not.toEqual([]);
    store.removePhotographBytes("shed", large.sha256);
    expect(store.photograph("shed", large.sha256)).toBeNull();
    expect(filesWith(Uint8Array.from(mark), store)).toEqual([]);
    expect(store.faults()).toEqual([]);
    store.addPhotograph("shed", large);
    expect(store.photograph("shed", large.sha256)).not.toBeNull();
  });

  test("of another checksum, another type or too many bytes are not taken in", () => {
    const store = storeWithMachine();
    const add = (change: object) => () => store.addPhotograph("shed", { ...photograph, ...change });
    expect(add({ sha256: "0".repeat(64) })).toThrow("checksum");
    expect(add({ mediaType: "image/png" })).toThrow("type");
    expect(add({ bytes: new Uint8Array(8_000_001) })).toThrow("larger");
  });

  test("that have changed on the disk are found", () => {
    const store = storeWithMachine();
    store.addPhotograph("shed", photograph);
    foreignTool(store).exec("UPDATE photographs SET bytes = x'ffd8ff'");
    expect(store.faults().map(({ code }) => code)).toEqual(["database-damaged"]);
  });
});

describe("where the disk refuses", () => {
  test("nothing of what was asked is done, and the words say why", () => {
    // Pages are bounded as a full disk would bound them.
    let connection: Connection | null = null;
    const driver = {
      open: (...args: Parameters<typeof libsqlDriver.open>) => {
        connection = libsqlDriver.open(...args);
        return connection;
      },
    };
    const store = openedStore(undefined, { driver });
    store.addMachine({ id: "shed", demonstration: false }, soundLogbook());
    connection!.prepare("PRAGMA max_page_count = 1").get();
    const long = Array.from({ length: 200 }, (_, n) =>
      sampleEvent(n + 10, { kind: "note-added", text: "x".repeat(3000) }),
    );
    const append = () => store.append("shed", long);
    expect(append).toThrow(StoreFailure);
    expect(append).toThrow("database-full");
    expect(store.machines()[0]).toMatchObject({ events: 5, lastSequence: 5 });
    expect(store.eventsAfter(0)).toHaveLength(5);
    connection!.prepare("PRAGMA max_page_count = 100000").get();
    expect(store.append("shed", long).added).toHaveLength(200);
    expect(store.faults()).toEqual([]);
  });

  test("at the very end of a transaction, nothing of it counts as added", () => {
    let isBroken = false;
    const driver = {
      open: (...args: Parameters<typeof libsqlDriver.open>): Connection => {
        const connection = libsqlDriver.open(...args);
        const exec = (sql: string) => {
          if (isBroken && sql === "COMMIT")
            throw Object.assign(new Error("disk I/O error"), { code: "SQLITE_IOERR_FSYNC" });
          connection.exec(sql);
        };
        return { ...connection, exec };
      },
    };
    const store = openedStore(undefined, { driver });
    store.addMachine({ id: "shed", demonstration: false }, soundLogbook());
    isBroken = true;
    expect(() => store.append("shed", [homed(9)])).toThrow("database-unwritable");
    expect(() => store.addMachine({ id: "lent", demonstration: false }, soundLogbook())).toThrow("database-unwritable");
    isBroken = false;
    expect(store.machines()).toEqual([{ id: "shed", demonstration: false, events: 5, lastSequence: 5 }]);
    expect(store.eventsAfter(0)).toHaveLength(5);
    expect(store.append("shed", [homed(9)]).added).toHaveLength(1);
  });
});
