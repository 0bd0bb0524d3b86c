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
import { newSession, openSession, type Session, sessionWith } from "../app/session.ts";
import { refusal } from "../core/base/diagnostic.ts";
import type { LogEvent } from "../logbook/events.ts";
import type { TornLine } from "../logbook/read.ts";
import { textFromEvents } from "../logbook/write.ts";
import { accepted, BadInput, writeDiagnostic } from "./report.ts";
import { reasonOf } from "./system-reason.ts";
import { whileLocked } from "./writers-lock.ts";

export function readBytes(file: string): Buffer {
  try {
    return file === "-" ? readFileSync(0) : readFileSync(file);
  } catch (error) {
    throw new BadInput([refusal("file-unreadable", { file }, { file, reason: reasonOf(error) })]);
  }
}

/** What each logbook held when it was read: whoever adds to it must know whether that still stands there. */
const asRead = new Map<string, Buffer>();

/** A logbook that is there; bad ones end the command before anything else happens. */
export function openLogbook(file: string): Session {
  const bytes = readBytes(file);
  if (file !== "-") asRead.set(file, bytes);
  return accepted(openSession(bytes, file === "-" ? "standard input" : file));
}

/**
 * Appends events as whole lines, synced to the disk, while no other program of ours writes. What another has added since
 * the logbook was read stays, if the new events fit behind it; a logbook that has changed otherwise is not written to.
 */
export function appendEvents(file: string, session: Session, events: readonly LogEvent[]): void {
  if (file === "-") throw new BadInput([refusal("standard-input-only-read", {})]);
  const done = whileLocked(file, () => append(file, asItIsNow(file, session, events), events));
  if (done !== undefined) throw new BadInput([refusal("logbook-being-written", { file }, { process: done.heldBy })]);
}

/** The session, or that of the logbook as another program has left it. */
function asItIsNow(file: string, session: Session, events: readonly LogEvent[]): Session {
  const before = asRead.get(file);
  // What is no file, as a pipe, cannot be read twice.
  if (before === undefined || statSync(file, { throwIfNoEntry: false })?.isFile() === false) return session;
  const now = readBytes(file);
  if (now.equals(before)) return session;
  if (now.length < before.length || !now.subarray(0, before.length).equals(before))
    throw new BadInput([refusal("file-changed", { file }, { file })]);
  const grown = accepted(openSession(now, file));
  accepted(sessionWith(grown, events));
  const count = now.toString("utf8", before.length).trim().split("\n").length;
  writeDiagnostic({ code: "logbook-grew", severity: "remark", where: { file }, data: { file, count } });
  return grown;
}

/**
 * A torn last line cannot be added to: its text is first put into a file beside the logbook, where nothing is lost and
 * nothing is in the way.
 */
function append(file: string, session: Session, events: readonly LogEvent[]): void {
  const { torn, endsWithLineEnd } = session.logbook;
  if (torn !== null) setAside(file, torn);
  write(file, "a", (endsWithLineEnd || torn !== null ? "" : "\n") + textFromEvents(events));
  if (asRead.has(file)) asRead.set(file, readBytes(file));
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
