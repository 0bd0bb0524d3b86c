import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { EventStore } from "../app/event-store.ts";
import { pictureEndings } from "../app/photograph.ts";
import { exportLogbook, photographsOf } from "../store/export-logbook.ts";
import { writeWhole } from "./data-file.ts";
import { fileNameFor } from "./machine-routes.ts";

/**
 * Writes a machine's logbook and its photographs into a folder, under the names that an export gives them, so that
 * importing the file brings the machine back. Throws where the disk refuses; then nothing may be deleted.
 */
export function keepExport(store: EventStore, machine: string, name: string, folder: string, nowMs: number): string {
  const day = new Date(nowMs).toISOString().slice(0, 19).replaceAll(/[-:]/g, "");
  const stem = join(folder, `${fileNameFor(name)}-${day}-${machine.slice(0, 6)}`);
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const photographs = photographsOf(store, machine);
  if (photographs.length > 0) mkdirSync(`${stem}-photographs`, { recursive: true, mode: 0o700 });
  for (const { sha256, mediaType, bytes } of photographs) {
    writeWhole(join(`${stem}-photographs`, `${sha256}.${pictureEndings[mediaType]}`), bytes);
  }
  writeWhole(`${stem}.jsonl`, exportLogbook(store, machine));
  return `${stem}.jsonl`;
}
