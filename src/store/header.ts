import { closeSync, openSync, readSync, statSync } from "node:fs";
import { applicationId } from "./migrations.ts";

/**
 * What the first hundred bytes of a file say, read without SQLite, which would touch the file or put others beside it.
 * "blank": SQLite's, but with nothing of ours or anybody else's marked in it, as creation that was cut short leaves it.
 */
export type Header =
  | { readonly kind: "absent" | "blank" | "foreign" }
  | { readonly kind: "ours"; readonly version: number };

export function readHeader(path: string): Header {
  if (statSync(path, { throwIfNoEntry: false }) === undefined) return { kind: "absent" };
  const bytes = Buffer.alloc(100);
  const handle = openSync(path, "r");
  try {
    const length = readSync(handle, bytes, 0, 100, 0);
    if (length === 0) return { kind: "blank" };
    if (length < 100 || bytes.toString("latin1", 0, 16) !== "SQLite format 3\0") return { kind: "foreign" };
  } finally {
    closeSync(handle);
  }
  const [version, application] = [bytes.readUInt32BE(60), bytes.readUInt32BE(68)];
  if (application === applicationId) return { kind: "ours", version };
  return { kind: application === 0 && version === 0 ? "blank" : "foreign" };
}
