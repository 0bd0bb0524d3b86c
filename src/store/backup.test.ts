import { chmodSync, existsSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { sampleEvent, soundLogbook } from "../../tests/logbook/sample-events.ts";
import { openedStore, temporaryFolder, tidyUp } from "../../tests/store/temporary-store.ts";
import { StoreFailure } from "../app/event-store.ts";
import type { Diagnostic } from "../core/base/diagnostic.ts";
import { backupFolder, backupName, backupsIn, newestBackup, pruneBackups } from "./backup.ts";
import { BackupSchedule, type ScheduleOptions, type Timer } from "./backup-schedule.ts";
import type { SqliteStore } from "./sqlite-store.ts";

tidyUp();

const hour = 3_600_000;
const begin = Date.UTC(2026, 2, 14, 15, 22, 5);

function filledStore(): SqliteStore {
  const store = openedStore();
  store.addMachine({ id: "shed", demonstration: false }, soundLogbook());
  return store;
}

describe("a backup", () => {
  test("is a database of its own with all that the store has, and its name is its date", () => {
    const store = filledStore();
    const path = join(backupFolder(store.path), backupName(begin));
    expect(path.endsWith(join("backups", "kilter-20260314T152205Z.db"))).toBe(true);
    store.backUp(path);
    store.append("shed", [sampleEvent(9, { kind: "homed" })]);
    expect(readdirSync(dirname(path))).toEqual(["kilter-20260314T152205Z.db"]);
    const copy = openedStore(path);
    expect(copy.machines()).toEqual([{ id: "shed", demonstration: false, events: 5, lastSequence: 5 }]);
    expect(copy.lastSequence()).toBe(5);
    expect(copy.faults()).toEqual([]);
    expect(store.faults()).toEqual([]);
  });

  test("is never written over another, and leaves nothing half done where it cannot be made", () => {
    const store = filledStore();
    const folder = temporaryFolder();
    store.backUp(join(folder, "a.db"));
    expect(() => store.backUp(join(folder, "a.db"))).toThrow("backup-there");
    writeFileSync(join(folder, "file"), "");
    expect(() => store.backUp(join(folder, "file", "b.db"))).toThrow("backup-failed");
    expect(() => store.backUp(join(folder, "c\0.db"))).toThrow("backup-failed");
    expect(readdirSync(folder).sort()).toEqual(["a.db", "file"]);
  });

  test("may be made beside a server that writes", () => {
    const store = filledStore();
    const looker = openedStore(store.path, { to: "look" });
    const path = join(temporaryFolder(), "a.db");
    looker.backUp(path);
    store.append("shed", [sampleEvent(9, { kind: "homed" })]);
    expect(openedStore(path).machines()[0]).toMatchObject({ events: 5 });
  });
});

describe("the backups of a folder", () => {
  test("are those whose names are dates, the newest first", () => {
    const folder = temporaryFolder();
    const names = [
      backupName(begin),
      backupName(begin + hour),
      "kilter-2026.db",
      "kilter-20269914T152205Z.db",
      "notes.txt",
    ];
    for (const name of names) writeFileSync(join(folder, name), "");
    expect(backupsIn(folder)).toEqual([
      { path: join(folder, backupName(begin + hour)), atMs: begin + hour },
      { path: join(folder, backupName(begin)), atMs: begin },
    ]);
    expect(backupsIn(join(folder, "nowhere"))).toEqual([]);
    expect(newestBackup(join(folder, "kilter.db"))).toBe("");
  });

  test("are cut down to the newest; other files stay, and what was cut short goes", () => {
    const folder = temporaryFolder();
    const dated = [0, 1, 2, 3, 4].map((n) => backupName(begin + n * hour));
    const others = ["before-form-2-20260314T152205Z.db", "notes.txt", "letter.part"];
    for (const name of [...dated, ...others, `${backupName(begin)}.part`]) writeFileSync(join(folder, name), "");
    expect(pruneBackups(folder, 2, begin + 9 * hour)).toHaveLength(3);
    expect(readdirSync(folder).sort()).toEqual([...dated.slice(3), ...others].sort());
    // One is always kept.
    pruneBackups(folder, 0, begin + 9 * hour);
    expect(backupsIn(folder)).toHaveLength(1);
  });

  test("that are dated later than now, by a clock that was wrong, go before those that can be believed", () => {
    const folder = temporaryFolder();
    const [wrong, older, newer] = [begin + 99_999 * hour, begin, begin + hour].map(backupName) as [
      string,
      string,
      string,
    ];
    for (const name of [wrong, older, newer]) writeFileSync(join(folder, name), "");
    pruneBackups(folder, 2, begin + 2 * hour);
    expect(readdirSync(folder).sort()).toEqual([older, newer]);
  });
});

describe("a schedule", () => {
  /** A clock and a timer that are moved by hand. */
  function bench(store: Pick<SqliteStore, "backUp">, options: Partial<ScheduleOptions> = {}) {
    const folder = join(temporaryFolder(), "backups");
    const state = { nowMs: begin, run: null as (() => void) | null, waitMs: 0 };
    const failures: Diagnostic[] = [];
    const timer: Timer = (run, afterMs) => {
      Object.assign(state, { run, waitMs: afterMs });
      return () => {
        state.run = null;
      };
    };
    const schedule = new BackupSchedule(store, {
      folder,
      everyHours: 6,
      keep: 3,
      timer,
      nowMs: () => state.nowMs,
      onFailure: (diagnostic) => failures.push(diagnostic),
      ...options,
    });
    const ring = () => {
      state.nowMs += state.waitMs;
      state.run?.();
    };
    return { folder, state, failures, schedule, ring };
  }

  test("makes a backup at once where there is none, and then one after so many hours, keeping the newest", () => {
    const { folder, state, failures, schedule, ring } = bench(filledStore());
    schedule.start();
    expect(backupsIn(folder).map(({ atMs }) => atMs)).toEqual([begin]);
    expect(state.waitMs).toBe(6 * hour);
    for (let n = 0; n < 5; n += 1) ring();
    expect(backupsIn(folder).map(({ atMs }) => (atMs - begin) / hour)).toEqual([30, 24, 18]);
    expect(failures).toEqual([]);
    schedule.stop();
    expect(state.run).toBeNull();
  });

  test("counts from the last backup, whoever made it", () => {
    const { folder, state, schedule } = bench(filledStore());
    mkdirSync(folder);
    writeFileSync(join(folder, backupName(begin - 2 * hour)), "");
    schedule.start();
    expect(backupsIn(folder)).toHaveLength(1);
    expect(state.waitMs).toBe(4 * hour);
  });

  test("makes what is due at once after a long sleep, and looks again within a day however long it may wait", () => {
    const { folder, state, schedule, ring } = bench(filledStore(), { everyHours: 24 * 40 });
    schedule.start();
    expect(state.waitMs).toBe(24 * hour);
    ring();
    expect(backupsIn(folder)).toHaveLength(1);
    state.nowMs = begin + 24 * 50 * hour;
    state.waitMs = 0;
    ring();
    expect(backupsIn(folder)).toHaveLength(2);
  });

  test("is not put off by a backup that a wrong clock has dated years ahead", () => {
    const { folder, schedule } = bench(filledStore());
    mkdirSync(folder);
    writeFileSync(join(folder, backupName(begin + 99_999 * hour)), "");
    schedule.start();
    expect(existsSync(join(folder, backupName(begin)))).toBe(true);
  });

  test("tells what went wrong, removes nothing, and tries again after an hour", () => {
    let isFull = true;
    const store = filledStore();
    const failing = {
      backUp: (path: string) => {
        if (isFull) throw new StoreFailure({ code: "database-full", severity: "refusal", where: {}, data: {} });
        store.backUp(path);
      },
    };
    const { folder, state, failures, schedule, ring } = bench(failing, { keep: 1 });
    mkdirSync(folder);
    for (const ago of [20, 30]) writeFileSync(join(folder, backupName(begin - ago * hour)), "");
    schedule.start();
    expect(failures.map(({ code }) => code)).toEqual(["database-full"]);
    expect(backupsIn(folder)).toHaveLength(2);
    expect(state.waitMs).toBe(hour);
    isFull = false;
    ring();
    expect(backupsIn(folder).map(({ atMs }) => atMs)).toEqual([begin + hour]);
  });

  test("whose folder cannot be read fails in words", () => {
    const { folder, failures, schedule } = bench(filledStore());
    writeFileSync(folder, "no folder");
    chmodSync(folder, 0o600);
    schedule.start();
    expect(failures.map(({ code }) => code)).toEqual(["backup-failed"]);
  });
});
