import { describe, expect, it } from "vitest";
import { sampleEvent } from "../../tests/logbook/sample-events.ts";
import type { StoredEvent } from "../app/event-store.ts";
import { Live, type LiveLimits } from "./live.ts";

const limits: LiveLimits = {
  inAll: 5,
  perDevice: 3,
  opensPerMinute: 8,
  heartbeatMs: 3_600_000,
  stalledAfterMs: 45_000,
};

/** Events that are there, and what a page would hear of them. */
function workshop(given: Partial<LiveLimits> = {}) {
  let now = 0;
  let stalled = 0;
  const events: StoredEvent[] = [];
  const store = {
    lastSequence: () => events.at(-1)?.sequence ?? 0,
    eventsAfter: (sequence: number, { most = 1e9 } = {}) =>
      events.filter((stored) => stored.sequence > sequence).slice(0, most),
  };
  const live = new Live(
    store as never,
    { ...limits, ...given },
    () => now,
    () => {
      stalled += 1;
    },
  );
  const add = (machine: string, count: number, text = "wiped the rails") => {
    const added = Array.from({ length: count }, () => {
      const sequence = store.lastSequence() + 1;
      const stored = { sequence, machine, event: sampleEvent(sequence, { kind: "note-added", text }) };
      events.push(stored);
      return stored;
    });
    live.publish(added);
  };
  const wait = (ms: number) => {
    now += ms;
  };
  return { live, add, wait, events, stalled: () => stalled };
}

function visitor(device = "phone", state = { isWelcome: true, hungUp: 0 }) {
  const hangUp = () => {
    state.hungUp += 1;
  };
  return { device, isWelcome: () => state.isWelcome, hangUp };
}

/** Reads until nothing more comes for a moment; the text so far, and whether the stream has ended. */
async function readAll(reader: ReadableStreamDefaultReader<Uint8Array>, quietMs = 30) {
  let text = "";
  let pending = reader.read();
  for (;;) {
    const quiet = new Promise<null>((resolve) => setTimeout(() => resolve(null), quietMs));
    const read = await Promise.race([pending, quiet]);
    if (read === null) return { text, hasEnded: false };
    if (read.done) return { text, hasEnded: true };
    text += new TextDecoder().decode(read.value);
    pending = reader.read();
  }
}

/** Sequences of the events heard, each time they were heard. */
function heard(text: string): number[] {
  return [...text.matchAll(/^id: (\d+)\ndata: (.*)$/gm)].flatMap(([, id, data]) => {
    const { sequence, events } = JSON.parse(data!) as { sequence: number; events: unknown[] };
    expect(sequence).toBe(Number(id));
    return events.map((_, index) => sequence - events.length + 1 + index);
  });
}

const upTo = (count: number) => Array.from({ length: count }, (_, index) => index + 1);

describe("a live connection", () => {
  it("hears everything after its place once and in order, whether it was there before or comes now", async () => {
    const { live, add } = workshop();
    add("a", 3);
    add("b", 2);
    const reader = live.open(visitor(), 0)!.getReader();
    add("a", 1);
    const before = await readAll(reader);
    expect(heard(before.text)).toEqual(upTo(6));
    live.close();
  });

  it("goes on behind the place it names, within a message too", async () => {
    const { live, add } = workshop();
    add("a", 10);
    const { text } = await readAll(live.open(visitor(), 4)!.getReader());
    expect(heard(text)).toEqual([5, 6, 7, 8, 9, 10]);
    live.close();
  });

  it("that names a place ahead of everything hears everything", async () => {
    const { live, add } = workshop();
    add("a", 2);
    const { text } = await readAll(live.open(visitor(), 99)!.getReader());
    expect(heard(text)).toEqual([1, 2]);
    live.close();
  });

  it("tells events of one machine together and of each machine apart", async () => {
    const { live, add } = workshop();
    add("a", 2);
    add("b", 1);
    const { text } = await readAll(live.open(visitor(), 0)!.getReader());
    const machines = [...text.matchAll(/^data: (.*)$/gm)].map(([, data]) => JSON.parse(data!).machine);
    expect(machines).toEqual(["a", "b"]);
    live.close();
  });

  it("that reads slowly misses nothing and nothing is heaped up for it", async () => {
    const { live, add } = workshop();
    const reader = live.open(visitor(), 0)!.getReader();
    // Far more than is kept ready.
    for (let n = 0; n < 600; n += 1) add("a", 3, "x".repeat(3000));
    const { text } = await readAll(reader, 200);
    expect(heard(text)).toEqual(upTo(1800));
    live.close();
  });

  it("that takes nothing any more is cut, and told to the log", async () => {
    const { live, add, wait, stalled } = workshop();
    const state = { isWelcome: true, hungUp: 0 };
    const stream = live.open(visitor("phone", state), 0)!;
    const reader = stream.getReader();
    await reader.read();
    add("a", 1);
    wait(45_001);
    live.beat();
    expect(live.count).toBe(0);
    expect(state.hungUp).toBe(1);
    expect(stalled()).toBe(1);
  });

  it("that waits for news is not cut, and hears a comment", async () => {
    const { live, wait } = workshop();
    const reader = live.open(visitor(), 0)!.getReader();
    await reader.read();
    const next = reader.read();
    await new Promise((resolve) => setTimeout(resolve, 5));
    wait(60_000);
    live.beat();
    expect(new TextDecoder().decode((await next).value)).toMatch(/^: .*\n\n$/);
    expect(live.count).toBe(1);
    live.close();
  });

  it("of a device that has been removed ends with the next beat", async () => {
    const { live } = workshop();
    const state = { isWelcome: true, hungUp: 0 };
    const reader = live.open(visitor("phone", state), 0)!.getReader();
    state.isWelcome = false;
    live.beat();
    expect((await readAll(reader)).hasEnded).toBe(true);
    expect(live.count).toBe(0);
  });

  it("ends when the server stops, and none is opened after", async () => {
    const { live } = workshop();
    const reader = live.open(visitor(), 0)!.getReader();
    live.close();
    expect((await readAll(reader)).hasEnded).toBe(true);
    expect(live.open(visitor(), 0)).toBeNull();
  });

  it("hears that a machine has been deleted, and nothing of it any more", async () => {
    const { live, add, events } = workshop();
    const reader = live.open(visitor(), 0)!.getReader();
    await readAll(reader);
    live.publishDeleted("a");
    add("a", 1);
    add("b", 1);
    events.splice(0, 1);
    live.publishDeleted("a");
    const late = await readAll(live.open(visitor("laptop"), 0)!.getReader());
    expect(late.text).not.toContain('"machine":"a"');
    expect(heard(late.text)).toEqual([2]);
    live.close();
  });
});

describe("live connections", () => {
  it("are limited for one device and in all, and free again when one leaves", async () => {
    const { live } = workshop();
    const first = Array.from({ length: 3 }, () => live.open(visitor("phone"), 0));
    expect(live.open(visitor("phone"), 0)).toBeNull();
    expect(live.open(visitor("laptop"), 0)).not.toBeNull();
    expect(live.open(visitor("laptop"), 0)).not.toBeNull();
    expect(live.open(visitor("tablet"), 0)).toBeNull();
    await first[0]!.cancel();
    expect(live.open(visitor("tablet"), 0)).not.toBeNull();
    live.close();
  });

  it("may not be opened again and again", async () => {
    const { live, wait } = workshop();
    const opened: boolean[] = [];
    for (let n = 0; n < 12; n += 1) {
      const stream = live.open(visitor(), 0);
      opened.push(stream !== null);
      await stream?.cancel();
    }
    expect(opened.filter(Boolean)).toHaveLength(8);
    wait(60_000);
    expect(live.open(visitor(), 0)).not.toBeNull();
    live.close();
  });
});
