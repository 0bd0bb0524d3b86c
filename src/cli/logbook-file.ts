import {
  closeSync,
  existsSync,
  fstatSync,
  fsyncSync,
  openSync,
  readFileSync,
  statSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { basename } from "node:path";
import { newSession, openSession, type Session } from "../app/session.ts";
import { refusal } from "../core/base/diagnostic.ts";
import type { LogEvent } from "../logbook/events.ts";
import type { TornLine } from "../logbook/read.ts";
import { textFromEvents } from "../logbook/write.ts";
import { accepted, BadInput } from "./report.ts";
import { reasonOf } from "./system-reason.ts";

export function readBytes(file: string): Buffer {
  try {
    return file === "-" ? readFileSync(0) : readFileSync(file);
  } catch (error) {
    throw new BadInput([refusal("file-unreadable", { file }, { file, reason: reasonOf(error) })]);
  }
}

/** A logbook that is there; bad ones end the command before anything else happens. */
export function openLogbook(file: string): Session {
  return accepted(openSession(readBytes(file), file === "-" ? "standard input" : file));
}

/**
 * Appends events as whole lines, synced to the disk. A torn last line cannot be added to: its text is first put into a
 * file beside the logbook, where nothing is lost and nothing is in the way.
 */
export function appendEvents(file: string, session: Session, events: readonly LogEvent[]): void {
  if (file === "-") throw new BadInput([refusal("standard-input-only-read", {})]);
  const { torn, endsWithLineEnd } = session.logbook;
  if (torn !== null) setAside(file, torn);
  write(file, "a", (endsWithLineEnd || torn !== null ? "" : "\n") + textFromEvents(events));
}

function setAside(file: string, { text, bytes }: TornLine): void {
  write(`${file}.torn`, "a", `${text}\n`);
  // Half a character reads as the replacement character, which has another length: what counts is the bytes there were.
  truncateSync(file, statSync(file).size - bytes);
}

/** Begins a logbook; an existing file is never written over. */
export function beginLogbook(file: string, events: readonly LogEvent[]): Session {
  if (file === "-") throw new BadInput([refusal("standard-input-only-read", {})]);
  if (existsSync(file)) throw new BadInput([refusal("file-exists", { file }, { file })]);
  const session = accepted(newSession(basename(file), events));
  write(file, "wx", textFromEvents(events));
  return session;
}

/** Writes as fs has it for the flags, on the disk when it returns. */
export function write(file: string, flags: string, content: string | Uint8Array): void {
  try {
    const handle = openSync(file, flags);
    try {
      // Whole, where one call to the system takes only a part.
      writeFileSync(handle, content);
      if (fstatSync(handle).isFile()) fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    throw new BadInput([refusal("file-unwritable", { file }, { file, reason: reasonOf(error) })]);
  }
}
