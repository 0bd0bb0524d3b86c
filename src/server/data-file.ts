import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { dirname } from "node:path";
import { syncFolder } from "../store/sync-folder.ts";

/** Writes a file whole or not at all: beside its place first, on the disk, then moved there. Only its user may read it. */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const beside = `${path}.new`;
  const handle = openSync(beside, "w", 0o600);
  try {
    const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
    for (let written = 0; written < bytes.length; ) written += writeSync(handle, bytes, written);
    fsyncSync(handle);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  } finally {
    closeSync(handle);
  }
  renameSync(beside, path);
  syncFolder(dirname(path));
}
