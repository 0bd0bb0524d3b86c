import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { refusal } from "../core/base/diagnostic.ts";
import { BadInput } from "./report.ts";
import { reasonOf } from "./system-reason.ts";

/** Files in a folder, made if it is not there. */
export function writeInto(folder: string, files: readonly { readonly name: string; readonly text: string }[]): void {
  try {
    mkdirSync(folder, { recursive: true });
    for (const { name, text } of files) writeFileSync(join(folder, name), text);
  } catch (error) {
    throw new BadInput([refusal("file-unwritable", { file: folder }, { file: folder, reason: reasonOf(error) })]);
  }
}
