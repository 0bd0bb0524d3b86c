import { signal } from "@preact/signals";
import type { Photograph } from "../../app/event-store.ts";
import { server } from "../live/server.ts";

/** A photograph whose bytes the server does not hold yet. */
export interface UnsentPicture extends Photograph {
  readonly machine: string;
}

/** What is to be sent, by checksum. The events that speak of them go their own way, by the outbox. */
export const unsentPictures = signal<ReadonlyMap<string, UnsentPicture>>(new Map());

/** What the server will not take, by checksum, in its words. */
export const refusedPictures = signal<ReadonlyMap<string, string>>(new Map());

const SHELF = "pictures";
let database: IDBDatabase | null = null;
let sending = false;

/** Takes up what was left unsent; where the browser keeps nothing, this page's memory has to do. */
export async function openPictures(): Promise<void> {
  try {
    const opening = indexedDB.open("kilter-pictures", 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore(SHELF, { keyPath: "sha256" });
    database = await resultOf(opening);
    const left = (await resultOf(shelf("readonly").getAll())) as readonly UnsentPicture[];
    unsentPictures.value = new Map(left.map((picture) => [picture.sha256, picture]));
  } catch {
    database = null;
  }
  setInterval(() => void sendPictures(), 5_000);
  void sendPictures();
}

/** On the device's disk when it returns, as far as the browser has one. */
export async function keepPicture(picture: UnsentPicture): Promise<void> {
  if (database) await resultOf(shelf("readwrite").put(picture)).catch(() => {});
  unsentPictures.value = new Map(unsentPictures.value).set(picture.sha256, picture);
  void sendPictures();
}

/** One after the other; what has arrived is given up here. */
export async function sendPictures(): Promise<void> {
  if (sending) return;
  sending = true;
  try {
    for (const picture of unsentPictures.value.values()) {
      if (refusedPictures.value.has(picture.sha256) || !isUnsent(picture)) continue;
      const reply = await server.putPhotograph(picture.machine, picture);
      // Taken back while it was on its way.
      if (reply.ok && !isUnsent(picture)) await server.removePhotograph(picture.machine, picture.sha256);
      else if (reply.ok) await giveUp(picture.sha256);
      else if ([413, 415, 422].includes(reply.status))
        refusedPictures.value = new Map(refusedPictures.value).set(picture.sha256, reply.words);
      // Not reached, or the machine's events have not come yet: it stays, and is tried again.
    }
  } finally {
    sending = false;
  }
}

/** Nothing of its bytes stays on this device, and nothing is sent. */
export async function takeBackPicture(sha256: string): Promise<void> {
  await giveUp(sha256);
  const others = new Map(refusedPictures.value);
  others.delete(sha256);
  refusedPictures.value = others;
}

function isUnsent({ sha256 }: UnsentPicture): boolean {
  return unsentPictures.value.has(sha256);
}

async function giveUp(sha256: string): Promise<void> {
  if (database) await resultOf(shelf("readwrite").delete(sha256)).catch(() => {});
  const rest = new Map(unsentPictures.value);
  rest.delete(sha256);
  unsentPictures.value = rest;
}

function shelf(mode: IDBTransactionMode): IDBObjectStore {
  return (database as IDBDatabase).transaction(SHELF, mode, { durability: "strict" }).objectStore(SHELF);
}

function resultOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
