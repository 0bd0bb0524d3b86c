import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach } from "vitest";
import type { Outcome } from "../../src/core/base/outcome.ts";
import { type OpenOptions, openStore } from "../../src/store/open-store.ts";
import type { SqliteStore } from "../../src/store/sqlite-store.ts";

const folders: string[] = [];
const stores: SqliteStore[] = [];

/** A folder that is gone after the test. Call `tidyUp` once in the file. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "kilter-store-"));
  folders.push(folder);
  return folder;
}

export function tidyUp(): void {
  afterEach(() => {
    for (const store of stores.splice(0)) store.close();
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
}

export function databasePath(): string {
  return join(temporaryFolder(), "kilter.db");
}

/** A store that is open; closed after the test, or before by `closed`. */
export function openedStore(path = databasePath(), options: OpenOptions = {}): SqliteStore {
  const store = valueIn(openStore(path, options));
  stores.push(store);
  return store;
}

export function closed(store: SqliteStore): string {
  stores.splice(stores.indexOf(store), 1);
  store.close();
  return store.path;
}

export function valueIn<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

/** Codes of what was said, refusals and remarks alike. */
export function codesOf(outcome: Outcome<unknown>): readonly string[] {
  return outcome.diagnostics.map(({ code }) => code);
}
