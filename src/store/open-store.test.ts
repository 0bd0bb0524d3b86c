import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { sampleEvent, soundLogbook } from "../../tests/logbook/sample-events.ts";
import { closed, codesOf, databasePath, openedStore, tidyUp, valueIn } from "../../tests/store/temporary-store.ts";
import { wordsForDiagnostic } from "../core/base/diagnostic-words.ts";
import type { Outcome } from "../core/base/outcome.ts";
import { textFromEvents } from "../logbook/write.ts";
import { libsqlDriver } from "./driver.ts";
import { exportLogbook, photographsOf } from "./export-logbook.ts";
import { readHeader } from "./header.ts";
import { type Migration, migrations } from "./migrations.ts";
import { openStore } from "./open-store.ts";

tidyUp();

const corpus = fileURLToPath(new URL("../../tests/corpus/databases/", import.meta.url));
const newestForm = migrations.at(-1)!.to;

/** A database of a form that was once released, built from its kept text. */
function databaseOfForm(version: number): string {
  const path = databasePath();
  const connection = libsqlDriver.open(path, { readOnly: false, waitMs: 0 });
  connection.exec(readFileSync(`${corpus}v${version}.sql`, "utf8"));
  connection.close();
  return path;
}

/** Every file of the folder with the checksum of its bytes. */
function filesBeside(path: string): Readonly<Record<string, string>> {
  const names = readdirSync(dirname(path), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => join(parentPath, name));
  const sum = (name: string) => createHash("sha256").update(readFileSync(name)).digest("hex");
  return Object.fromEntries(names.map((name) => [name, sum(name)]));
}

/** Refused, and in words that leave nothing blank. */
function refusalOf(outcome: Outcome<unknown>) {
  expect(outcome.ok).toBe(false);
  const [{ code, data }] = outcome.diagnostics as [(typeof outcome.diagnostics)[number]];
  const words = wordsForDiagnostic(code, data);
  expect(Object.values(words).join(" ")).not.toMatch(/undefined|NaN|\[object/);
  return { code, data, words };
}

const [first] = migrations as [Migration];
const twoForms: readonly Migration[] = [
  first,
  { to: 2, sql: "CREATE TABLE marks (key INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT" },
];

describe("opening", () => {
  test("makes the folder and the database where there is none, for its user alone", () => {
    const path = join(dirname(databasePath()), "deep", "down", "kilter.db");
    closed(openedStore(path));
    expect(existsSync(path)).toBe(true);
    expect(valueIn(openStore(path)).machines()).toEqual([]);
  });

  test("to look finds nothing where there is none, and makes nothing", () => {
    const path = databasePath();
    expect(refusalOf(openStore(path, { to: "look" })).code).toBe("database-not-there");
    expect(readdirSync(dirname(path))).toEqual([]);
  });

  test("asks SQLite to have every transaction on the disk before it answers", () => {
    let opened: ReturnType<typeof libsqlDriver.open> | null = null;
    const driver = {
      open: (...args: Parameters<typeof libsqlDriver.open>) => {
        opened = libsqlDriver.open(...args);
        return opened;
      },
    };
    openedStore(undefined, { driver });
    const ask = (pragma: string) => opened!.prepare(`PRAGMA ${pragma}`).get()?.[0];
    expect(ask("journal_mode")).toBe("wal");
    expect(ask("synchronous")).toBe(2);
    expect(ask("foreign_keys")).toBe(1);
    expect(ask("secure_delete")).toBe(1);
    expect(ask("busy_timeout")).toBe(5000);
  });

  test("takes up a creation that was cut short before anything was in it", () => {
    const empty = databasePath();
    writeFileSync(empty, "");
    expect(openedStore(empty).machines()).toEqual([]);
    const blank = databasePath();
    const connection = libsqlDriver.open(blank, { readOnly: false, waitMs: 0 });
    connection.exec("PRAGMA journal_mode = WAL");
    connection.close();
    expect(openedStore(blank).machines()).toEqual([]);
  });

  test.each([
    ["a text", "a text that is long enough to be taken for something\n".repeat(40)],
    ["a short file", "SQLite"],
  ])("refuses %s under the database's name, and leaves it as it is", (_, content) => {
    const path = databasePath();
    writeFileSync(path, content);
    const before = filesBeside(path);
    expect(refusalOf(openStore(path)).code).toBe("database-not-ours");
    expect(filesBeside(path)).toEqual(before);
  });

  test("refuses a database of another program, marked or not, and leaves it as it is", () => {
    for (const mark of ["PRAGMA application_id = 77", "SELECT 1"]) {
      const path = databasePath();
      const connection = libsqlDriver.open(path, { readOnly: false, waitMs: 0 });
      connection.exec(`CREATE TABLE songs (name TEXT); ${mark}`);
      connection.close();
      const bytes = readFileSync(path);
      expect(refusalOf(openStore(path)).code).toBe("database-not-ours");
      expect(readFileSync(path).equals(bytes)).toBe(true);
    }
  });

  test("says in words that a place cannot be opened", () => {
    const path = databasePath();
    mkdirSync(path);
    expect(refusalOf(openStore(path)).code).toBe("database-unopenable");
    writeFileSync(join(dirname(path), "file"), "");
    expect(refusalOf(openStore(join(dirname(path), "file", "kilter.db"))).code).toBe("database-unopenable");
  });
});

describe("the lock", () => {
  test("keeps a second writer out of one database, names the process that has it, and lets lookers in", () => {
    const store = openedStore();
    store.addMachine({ id: "shed", demonstration: false }, soundLogbook());
    const { code, data, words } = refusalOf(openStore(store.path));
    expect([code, data.process]).toEqual(["database-in-use", process.pid]);
    expect(words.what).toContain(`process ${process.pid}`);
    const looker = openedStore(store.path, { to: "look" });
    expect(looker.machines()[0]).toMatchObject({ id: "shed", events: 5 });
    store.append("shed", [sampleEvent(9, { kind: "homed" })]);
    expect(looker.machines()[0]).toMatchObject({ events: 6 });
    expect(looker.eventsAfter(5)).toHaveLength(1);
    expect(looker.faults()).toEqual([]);
    expect(() => looker.append("shed", [sampleEvent(10, { kind: "homed" })])).toThrow("database-unwritable");
  });

  test("is let go of when a store is closed", () => {
    const path = closed(openedStore());
    closed(openedStore(path));
    expect(openStore(path).ok).toBe(true);
  });

  test("is let go of when the process that has it is killed", async () => {
    const path = closed(openedStore());
    const open = fileURLToPath(new URL("open-store.ts", import.meta.url));
    const code = `const { openStore } = await import(${JSON.stringify(open)});
      globalThis.store = openStore(${JSON.stringify(path)}); console.log(globalThis.store.ok); setInterval(() => {}, 1000);`;
    const child = spawn(process.execPath, ["--import", "tsx", "--input-type=module", "-e", code], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    const [said] = await new Promise<Buffer[]>((done) => child.stdout.once("data", (...chunks) => done(chunks)));
    expect(String(said)).toBe("true\n");
    expect(refusalOf(openStore(path)).data.process).toBe(child.pid);
    const gone = new Promise((done) => child.once("exit", done));
    child.kill("SIGKILL");
    await gone;
    openedStore(path);
  });
});

describe("forms of the database", () => {
  test("lead from nothing to the newest without a gap", () => {
    expect(migrations.map(({ to }) => to)).toEqual(Array.from({ length: newestForm }, (_, n) => n + 1));
  });

  test("that were released are kept, each as a text", () => {
    expect(readdirSync(corpus)).toEqual(migrations.map(({ to }) => `v${to}.sql`));
  });

  test.each(migrations.map(({ to }) => to))("of which form %i is opened, with all that was in it", (version) => {
    const path = databaseOfForm(version);
    const outcome = openStore(path);
    const store = valueIn(outcome);
    expect(codesOf(outcome)).toEqual(version === newestForm ? [] : ["database-brought-forward"]);
    const [demonstration, own] = store.machines();
    expect(demonstration).toEqual({
      id: "5b0e0f0c-52d1-4a39-9a3e-0f6f1f6f3a10",
      demonstration: true,
      events: 6,
      lastSequence: 12,
    });
    expect(own).toMatchObject({ demonstration: false, events: 6, lastSequence: 11 });
    const note = sampleEvent(5, { kind: "note-added", text: 'it’s "oiled"\nand 3 × 2' });
    expect(exportLogbook(store, own!.id)).toBe(textFromEvents([...soundLogbook(), note]));
    expect(photographsOf(store, demonstration!.id)).toHaveLength(1);
    expect(store.faults()).toEqual([]);
    expect(store.append(own!.id, [sampleEvent(30, { kind: "homed" })]).added[0]?.sequence).toBe(13);
    store.close();
  });

  test("of which the first makes today what it made when it was released", () => {
    const schemaOf = (path: string) => {
      const connection = libsqlDriver.open(path, { readOnly: true, waitMs: 0 });
      const sql = "SELECT type, name, sql FROM sqlite_schema ORDER BY type, name";
      return connection.prepare(sql).all();
    };
    const fresh = closed(openedStore(undefined, { migrations: [first] }));
    expect(schemaOf(fresh)).toEqual(schemaOf(databaseOfForm(1)));
  });

  test("are gone through one by one, after the file has been kept as it was", () => {
    const path = databaseOfForm(1);
    const outcome = openStore(path, { migrations: twoForms, nowMs: () => Date.UTC(2026, 2, 14, 15, 22, 5) });
    // Stated in the file itself while it is still open, so that an older program need not look into the log.
    expect(readHeader(path)).toEqual({ kind: "ours", version: 2 });
    valueIn(outcome).close();
    const copy = join(dirname(path), "backups", "before-form-2-20260314T152205Z.db");
    expect(outcome.diagnostics).toMatchObject([
      { code: "database-brought-forward", severity: "remark", data: { from: 1, to: 2, copy } },
    ]);
    const old = openedStore(copy, { migrations: [first] });
    expect(old.machines()).toHaveLength(2);
    const again = openStore(path, { migrations: twoForms });
    expect(again.diagnostics).toEqual([]);
    expect(valueIn(again).machines()).toEqual(old.machines());
    valueIn(again).close();
  });

  test("are brought forward for a looker too, who then finds the newest", () => {
    const path = databaseOfForm(1);
    const outcome = openStore(path, { migrations: twoForms, to: "look" });
    expect(codesOf(outcome)).toEqual(["database-brought-forward"]);
    valueIn(outcome).close();
  });

  test("stay as they are where a step fails, and where the copy cannot be made", () => {
    const path = databaseOfForm(1);
    const broken = [first, { to: 2, sql: "CREATE TABLE marks (key INTEGER) STRICT; INSERT INTO nowhere VALUES (1)" }];
    expect(openStore(path, { migrations: broken }).ok).toBe(false);
    const store = openedStore(path, { migrations: [first] });
    expect(store.machines()).toHaveLength(2);
    closed(store);
    const other = databaseOfForm(1);
    writeFileSync(join(dirname(other), "backups"), "no folder");
    expect(refusalOf(openStore(other, { migrations: twoForms })).code).toBe("backup-failed");
    expect(openedStore(other, { migrations: [first] }).machines()).toHaveLength(2);
  });

  test("newer than this program are refused, with every byte left as it was", () => {
    const path = databaseOfForm(1);
    valueIn(openStore(path, { migrations: twoForms })).close();
    const before = filesBeside(path);
    for (const to of ["write", "look"] as const) {
      const { code, data, words } = refusalOf(openStore(path, { migrations: [first], to }));
      expect([code, data]).toEqual(["database-from-newer-version", { version: 2, known: 1 }]);
      expect(words.remedy).toContain("nothing in the file has been touched");
    }
    expect(filesBeside(path)).toEqual(before);
  });

  test("newer than this program are seen in the log as well, where the file does not say so yet", () => {
    const path = databaseOfForm(1);
    const connection = libsqlDriver.open(path, { readOnly: false, waitMs: 0 });
    connection.exec("PRAGMA journal_mode = WAL; PRAGMA user_version = 2");
    // As a kill leaves it: the file as it was, and the log beside it.
    const left = databasePath();
    for (const ending of ["", "-wal"]) copyFileSync(path + ending, left + ending);
    connection.close();
    const bytes = readFileSync(left);
    expect(bytes.readUInt32BE(60)).toBe(1);
    expect(refusalOf(openStore(left)).code).toBe("database-from-newer-version");
    expect(readFileSync(left).equals(bytes)).toBe(true);
  });
});

describe("damage", () => {
  /** A database of some pages, with one backup beside it. */
  function filled(): string {
    const store = openedStore();
    const notes = Array.from({ length: 300 }, (_, n) =>
      sampleEvent(n + 10, { kind: "note-added", text: "x".repeat(500) }),
    );
    store.addMachine({ id: "shed", demonstration: false }, [...soundLogbook(), ...notes]);
    store.backUp(join(dirname(store.path), "backups", "kilter-20260314T152205Z.db"));
    return closed(store);
  }

  test.each([
    ["pages written over", (path: string) => writeFileSync(path, readFileSync(path).fill(0xab, 3 * 4096, 12 * 4096))],
    ["a file cut off", (path: string) => truncateSync(path, 10 * 4096)],
  ])("by %s is found at the start, and the words say what to do", (_, damage) => {
    const path = filled();
    damage(path);
    const { code, words } = refusalOf(openStore(path));
    expect(code).toBe("database-damaged");
    expect(words.remedy).toContain(join(dirname(path), "backups", "kilter-20260314T152205Z.db"));
    expect(words.remedy).toContain("stop the server");
  });

  test("is healed by what the words say", () => {
    const path = filled();
    truncateSync(path, 10 * 4096);
    const backup = String(refusalOf(openStore(path)).data.backup);
    const kept = join(dirname(path), "kept");
    mkdirSync(kept);
    for (const name of readdirSync(dirname(path)).filter((name) => name.startsWith("kilter.db"))) {
      renameSync(join(dirname(path), name), join(kept, name));
    }
    copyFileSync(backup, path);
    expect(openedStore(path).machines()[0]).toMatchObject({ id: "shed", events: 305 });
  });

  test("where there is no backup says so", () => {
    const path = closed(openedStore());
    truncateSync(path, 4096);
    const { code, words } = refusalOf(openStore(path));
    expect(code).toBe("database-damaged");
    expect(words.remedy).toContain("there is no backup beside it");
  });
});
