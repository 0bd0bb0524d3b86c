import type { Unsent } from "./store.ts";

/** As many events as one message carries. */
const MOST = 500;

/** Neighbours of one machine go together; a machine that begins is a message of its own kind. */
export function batchesOf(entries: readonly Unsent[]): readonly (readonly Unsent[])[] {
  const batches: Unsent[][] = [];
  for (const entry of entries) {
    const last = batches.at(-1);
    if (!last || last[0].machine !== entry.machine || entry.begins || last.length >= MOST) batches.push([entry]);
    else last.push(entry);
  }
  return batches;
}
