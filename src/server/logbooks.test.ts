import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { sampleEvent, soundLogbook } from "../../tests/logbook/sample-events.ts";
import type { StoredEvent } from "../app/event-store.ts";
import { openStore } from "../store/open-store.ts";
import type { SqliteStore } from "../store/sqlite-store.ts";
import { Logbooks, machineNameFrom } from "./logbooks.ts";

const stores: SqliteStore[] = [];
afterEach(() => {
  for (const store of stores.splice(0)) store.close();
});

const machine = "0".repeat(32);

function workshop() {
  const opened = openStore(join(mkdtempSync(join(tmpdir(), "kilter-logbooks-")), "kilter.db"));
  if (!opened.ok) throw new Error(JSON.stringify(opened.diagnostics));
  const store = opened.value;
  stores.push(store);
  const told: StoredEvent[][] = [];
  const logbooks = new Logbooks(store, (added) => void told.push([...added]));
  expect(logbooks.create(machine, soundLogbook()).ok).toBe(true);
  told.length = 0;
  return { store, logbooks, told };
}

const note = (n: number) => sampleEvent(n, { kind: "note-added", text: "wiped the rails" });
const unfit = (n: number) => sampleEvent(n, { kind: "reading-withdrawn", reading: note(999).id, because: "slip" });

describe("batches that come at one moment", () => {
  it("are written together and told together, each with its own count", async () => {
    const { logbooks, told } = workshop();
    const outcomes = await Promise.all([
      logbooks.add(machine, [note(10), note(11)]),
      logbooks.add(machine, [note(11), note(12)]),
      logbooks.add(machine, [note(12)]),
    ]);
    expect(outcomes.map((outcome) => outcome.ok && outcome.value)).toEqual([
      { added: 2, passedOver: 0, lastSequence: 8 },
      { added: 1, passedOver: 1, lastSequence: 8 },
      { added: 0, passedOver: 1, lastSequence: 8 },
    ]);
    expect(told.map((added) => added.map(({ event }) => event.id))).toEqual([[note(10).id, note(11).id, note(12).id]]);
  });

  it("are each taken or refused alone where one of them does not fit", async () => {
    const { logbooks, store } = workshop();
    const outcomes = await Promise.all([
      logbooks.add(machine, [note(10)]),
      logbooks.add(machine, [note(11), unfit(12)]),
      logbooks.add(machine, [note(13)]),
    ]);
    expect(outcomes.map(({ ok }) => ok)).toEqual([true, false, true]);
    expect(store.machines()[0]!.events).toBe(7);
  });

  it("all fail where the disk refuses, and can be sent again", async () => {
    const { logbooks, store, told } = workshop();
    const append = store.append.bind(store);
    store.append = () => {
      throw new Error("the disk is full");
    };
    const failed = await Promise.allSettled([logbooks.add(machine, [note(10)]), logbooks.add(machine, [note(11)])]);
    expect(failed.map(({ status }) => status)).toEqual(["rejected", "rejected"]);
    expect(told).toEqual([]);
    store.append = append;
    expect(await logbooks.add(machine, [note(10), note(11)])).toMatchObject({ ok: true, value: { added: 2 } });
  });

  it("for a machine that is deleted meanwhile are refused", async () => {
    const { logbooks } = workshop();
    const waiting = [logbooks.add(machine, [note(10)]), logbooks.add(machine, [note(11)])];
    logbooks.delete(machine);
    const settled = await Promise.allSettled(waiting);
    expect(settled).toMatchObject([{ reason: { code: "machine-unknown" } }, { reason: { code: "machine-unknown" } }]);
  });
});

describe("a machine's name", () => {
  it("is the last by time that it was given", () => {
    const renamed = (n: number, name: string) => sampleEvent(n, { kind: "machine-renamed", name });
    expect(machineNameFrom(soundLogbook())).toBe("router in the shed");
    expect(machineNameFrom([renamed(30, "late"), ...soundLogbook(), renamed(20, "early")])).toBe("late");
    expect(machineNameFrom([note(1)])).toBeNull();
  });
});
