import { closeSync, fsyncSync, openSync } from "node:fs";

/** A new name in a folder must be on the disk too; where folders cannot be synced the system does it by itself. */
export function syncFolder(folder: string): void {
  if (process.platform === "win32") return;
  const handle = openSync(folder, "r");
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
