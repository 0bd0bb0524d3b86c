import type { LogEvent } from "../../logbook/events.ts";

/** One event that the server has not yet said it holds. */
export interface Unsent {
  /** Order in which events were put here; given by the store. */
  readonly place: number;
  readonly machine: string;
  readonly event: LogEvent;
  /** The machine itself begins with this event. */
  readonly begins: boolean;
}

/** Where unsent events are kept. What `put` has returned from is on the device's disk. */
export interface OutboxStore {
  readonly lasting: boolean;
  all(): Promise<readonly Unsent[]>;
  put(entries: readonly Omit<Unsent, "place">[]): Promise<void>;
  remove(places: readonly number[]): Promise<void>;
}

/** The browser's own database; where that is shut off, only this page's memory, and it says so. */
export async function openOutboxStore(): Promise<OutboxStore> {
  try {
    return databaseStore(await openDatabase());
  } catch {
    return memoryStore();
  }
}

const SHELF = "unsent";

function openDatabase(): Promise<IDBDatabase> {
  const opening = indexedDB.open("kilter-outbox", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore(SHELF, { keyPath: "place", autoIncrement: true });
  return resultOf(opening);
}

function databaseStore(database: IDBDatabase): OutboxStore {
  return {
    lasting: true,
    all: () => resultOf(database.transaction(SHELF).objectStore(SHELF).getAll() as IDBRequest<Unsent[]>),
    put: (entries) =>
      write((shelf) => {
        for (const entry of entries) shelf.add(entry);
      }),
    remove: (places) =>
      write((shelf) => {
        for (const place of places) shelf.delete(place);
      }),
  };

  function write(change: (shelf: IDBObjectStore) => void): Promise<void> {
    // "strict": finished means on the disk, not only handed to the system.
    const transaction = database.transaction(SHELF, "readwrite", { durability: "strict" });
    change(transaction.objectStore(SHELF));
    return new Promise((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onerror = () => reject(transaction.error);
      transaction.onabort = () => reject(transaction.error);
    });
  }
}

/** Only this page's memory, with what is there already. */
export function memoryStore(before: readonly Unsent[] = []): OutboxStore {
  let entries: readonly Unsent[] = before;
  let place = Math.max(0, ...before.map((entry) => entry.place));
  return {
    lasting: false,
    all: async () => entries,
    put: async (added) => {
      entries = [...entries, ...added.map((entry) => ({ ...entry, place: ++place }))];
    },
    remove: async (places) => {
      entries = entries.filter((entry) => !places.includes(entry.place));
    },
  };
}

function resultOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
