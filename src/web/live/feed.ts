import { computed, signal } from "@preact/signals";
import type { LogEvent } from "../../logbook/events.ts";
import { send, unsent } from "../outbox/outbox.ts";
import { ask } from "../worker/client.ts";
import { connection } from "./connection.ts";
import { type Me, server } from "./server.ts";

/** Who this device is to the server; null until it has said so. */
export const me = signal<Me | null>(null);

/** A helper reads, measures and notes; what a machine is, and what is asked of it, is the owner's. */
export const isOwner = computed(() => me.value?.role !== "helper");

/** True once everything that the server has was shown for the first time. */
export const complete = signal(false);

/** Sequence up to which each machine's events have come. */
const seen = new Map<string, number>();

/** Up to here every event of every machine has come: where the live feed goes on. */
let after = 0;
let source: EventSource | null = null;

/** How long between two tries while the server is away, and how often to look where all seems well. */
const PAUSE_MS = 3_000;
const LOOK_MS = 30_000;
let lookedAt = Number.NEGATIVE_INFINITY;

/** Keeps what is shown up to date, as long as the page lives. */
export async function follow(): Promise<void> {
  // A phone that has slept may hold a dead line without knowing it; and a browser has few lines for one server, so that
  // pages nobody looks at, those behind its back button among them, must not keep theirs.
  document.addEventListener("visibilitychange", () => {
    if (isShown()) void takeUp();
    else hangUp();
  });
  addEventListener("pagehide", hangUp);
  addEventListener("pageshow", () => void takeUp());
  addEventListener("online", () => void takeUp());
  for (;;) {
    if (connection.value !== "here" || performance.now() - lookedAt > LOOK_MS) await takeUp();
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
  }
}

/** Fetches what is missing and listens to what comes next. */
async function takeUp(): Promise<void> {
  if ((await catchUp()) && source === null && isShown()) listen();
}

function hangUp(): void {
  source?.close();
  source = null;
}

function isShown(): boolean {
  return document.visibilityState === "visible";
}

/** Asks for everything that has not come yet, and which machines are still there; true when that worked. */
export async function catchUp(): Promise<boolean> {
  lookedAt = performance.now();
  if (me.value === null) {
    const answer = await server.me();
    if (!answer.ok) {
      connection.value = answer.status === 401 || answer.status === 403 ? "stranger" : "away";
      return false;
    }
    me.value = answer.body;
  }
  const machines = await server.machines();
  if (!machines.ok) {
    if (machines.status === 401) me.value = null;
    connection.value = machines.status === 401 ? "stranger" : "away";
    return false;
  }
  for (const { id, demonstration, lastSequence } of machines.body) {
    while ((seen.get(id) ?? 0) < lastSequence) {
      const before = seen.get(id) ?? 0;
      const page = await server.eventsAfter(id, before);
      if (!page.ok) return false;
      await take(id, page.body.events, demonstration);
      if ((seen.get(id) ?? 0) === before) break;
    }
  }
  const there = new Set(machines.body.map(({ id }) => id));
  const begun = new Set(unsent.value.map(({ machine }) => machine));
  for (const id of [...seen.keys()].filter((known) => !there.has(known) && !begun.has(known))) {
    seen.delete(id);
    await ask("forget", { machine: id });
  }
  after = Math.max(after, ...machines.body.map(({ lastSequence }) => lastSequence));
  complete.value = true;
  connection.value = "here";
  void send();
  return true;
}

async function take(
  machine: string,
  events: readonly { readonly sequence: number; readonly event: LogEvent }[],
  demonstration?: boolean,
): Promise<void> {
  if (events.length === 0) return;
  await ask("add", {
    machine,
    events: events.map(({ event }) => event),
    ...(demonstration !== undefined && { demonstration }),
  });
  seen.set(machine, Math.max(seen.get(machine) ?? 0, ...events.map(({ sequence }) => sequence)));
}

/** The server tells what is new by itself; the browser takes the line up again where it broke. */
function listen(): void {
  source = new EventSource(`/api/live?after=${after}`);
  source.addEventListener("events", (message: MessageEvent<string>) => {
    const { machine, sequence, events } = JSON.parse(message.data) as {
      machine: string;
      sequence: number;
      events: readonly LogEvent[];
    };
    after = Math.max(after, sequence);
    void take(
      machine,
      events.map((event) => ({ sequence, event })),
    );
  });
  source.addEventListener("machine-deleted", (message: MessageEvent<string>) => {
    const { machine } = JSON.parse(message.data) as { machine: string };
    seen.delete(machine);
    void ask("forget", { machine });
  });
  source.onopen = () => void catchUp();
  source.onerror = () => {
    if (connection.value === "here") connection.value = "away";
    if (source?.readyState === EventSource.CLOSED) hangUp();
    // It may be there, and have sent this device away.
    void takeUp();
  };
}
