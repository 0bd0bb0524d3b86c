import { signal } from "@preact/signals";
import { invariant } from "../../core/base/invariant.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { connection } from "../live/connection.ts";
import { type Reply, server } from "../live/server.ts";
import { ask } from "../worker/client.ts";
import { batchesOf } from "./batches.ts";
import { memoryStore, type OutboxStore, openOutboxStore, type Unsent } from "./store.ts";

/** Events that the server does not hold yet. */
export const unsent = signal<readonly Unsent[]>([]);

/** What the server has refused and will go on refusing, by machine, in its words. Nothing of it is lost. */
export const refusals = signal<ReadonlyMap<string, string>>(new Map());

/** False where the browser keeps nothing: then unsent events live as long as the page. */
export const keepsOverReload = signal(true);

let store: OutboxStore | null = null;
let sending = false;

/** Opens the outbox; what lies in it is shown at once, as if the server had it. */
export async function openOutbox(): Promise<void> {
  store = await openOutboxStore();
  keepsOverReload.value = store.lasting;
  await look();
  for (const { machine, event } of unsent.value) await ask("add", { machine, events: [event] });
  addEventListener("beforeunload", (event) => {
    if (unsent.value.length > 0) event.preventDefault();
  });
  setInterval(() => void send(), 5_000);
}

/** Keeps events on this device, shows them, and sends them as soon as the server is there. */
export async function record(machine: string, events: readonly LogEvent[], begins = false): Promise<void> {
  invariant(store !== null, "the outbox is open before anything is recorded");
  await keep(events.map((event, i) => ({ machine, event, begins: begins && i === 0 })));
  await ask("add", { machine, events, ...(begins && { demonstration: false }) });
  await look();
  void send();
}

/** A disk that is full, or a browser that takes its database away, must not lose what has just been read. */
async function keep(entries: readonly Omit<Unsent, "place">[]): Promise<void> {
  try {
    await store?.put(entries);
  } catch {
    store = memoryStore(unsent.value);
    keepsOverReload.value = false;
    await store.put(entries);
  }
}

/** Sends what is there, machine by machine, in the order in which it was made. What has arrived is taken out. */
export async function send(): Promise<void> {
  if (sending || store === null || unsent.value.length === 0) return;
  sending = true;
  try {
    for (const batch of batchesOf(unsent.value)) {
      const reply = await sendBatch(batch);
      if (reply.ok) {
        await store.remove(batch.map(({ place }) => place));
        forget(batch[0].machine);
        await look();
      } else if (isFinal(reply.status)) refusals.value = new Map(refusals.value).set(batch[0].machine, reply.words);
      else {
        // Not reached, or not let in: everything stays, and is tried again.
        if (reply.status === 0) connection.value = "away";
        return;
      }
    }
  } finally {
    sending = false;
  }
}

/** Gives up what the server refuses; the caller has seen to it that the text is kept elsewhere. */
export async function discard(machine: string): Promise<void> {
  await store?.remove(unsent.value.filter((entry) => entry.machine === machine).map(({ place }) => place));
  forget(machine);
  await look();
}

async function sendBatch(batch: readonly Unsent[]): Promise<Reply<unknown>> {
  const { machine, begins } = batch[0];
  const events = batch.map(({ event }) => event);
  if (begins) {
    const reply = await server.begin(machine, events);
    // It has arrived before, and only the answer was lost: events go by their ids, so nothing is twice.
    if (reply.ok || reply.status !== 409) return reply;
  }
  return server.append(machine, events);
}

function isFinal(status: number): boolean {
  return [400, 403, 404, 409, 413, 415, 422].includes(status);
}

function forget(machine: string): void {
  if (!refusals.value.has(machine)) return;
  const next = new Map(refusals.value);
  next.delete(machine);
  refusals.value = next;
}

async function look(): Promise<void> {
  if (store) unsent.value = await store.all();
}
