import type { EventStore } from "../app/event-store.ts";
import type { Surroundings } from "../app/surroundings.ts";
import { type Outcome, succeed } from "../core/base/outcome.ts";
import { readLogbook } from "../logbook/read.ts";
import type { Logbooks } from "./logbooks.ts";

/**
 * Puts the machine that comes with the program into a store that has never held anything. Sequences are never given out
 * twice, so a store from which it was deleted is known for having been in use, and it does not come back.
 */
export function seedDemonstration(
  store: EventStore,
  logbooks: Logbooks,
  logbook: Uint8Array,
  surroundings: Pick<Surroundings, "randomBytes">,
): Outcome<boolean> {
  if (store.lastSequence() > 0) return succeed(false);
  const read = readLogbook(logbook, "shared-workshop.jsonl");
  if (!read.ok) return read;
  const id = Buffer.from(surroundings.randomBytes(16)).toString("hex");
  const created = logbooks.create(id, read.value.events, true);
  return created.ok ? succeed(true) : created;
}
