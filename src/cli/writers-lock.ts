import { randomUUID } from "node:crypto";
import { readFileSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";

/** Writing takes milliseconds: whoever has held the lock for so long has been killed, or put to sleep, with it. */
const deadAfterMs = 10_000;
const lookAgainMs = 20;

interface Holder {
  readonly token: string;
  readonly process: number;
  readonly computer: string;
}

/** Another program has it; 0 where it does not say which. */
export interface HeldBy {
  readonly heldBy: number;
}

/**
 * Runs something while no other program that asks likewise writes to a file. The lock is a file beside it, made only
 * where none is, which works on every system and over a network; one that was left by a program that is gone counts as
 * none. Where nothing may be made beside the file, it runs without.
 */
export function whileLocked<T>(file: string, run: () => T, patienceMs = 5000): T | HeldBy {
  const lock = `${realOf(file)}.lock`;
  const holder: Holder = { token: randomUUID(), process: process.pid, computer: hostname() };
  const end = Date.now() + patienceMs;
  for (;;) {
    const got = take(lock, holder);
    if (got === "not allowed") return run();
    if (got === "taken") break;
    const held = holderOf(lock);
    if (held !== null && isLeft(held)) removeLeft(lock, held);
    else if (Date.now() >= end) return { heldBy: held?.holder?.process ?? 0 };
    else pause(lookAgainMs);
  }
  try {
    return run();
  } finally {
    if (holderOf(lock)?.holder?.token === holder.token) rmSync(lock, { force: true });
  }
}

/** A file may go by several names. */
function realOf(file: string): string {
  try {
    return realpathSync(file);
  } catch {
    return file;
  }
}

function take(lock: string, holder: Holder): "taken" | "held" | "not allowed" {
  try {
    writeFileSync(lock, JSON.stringify(holder), { flag: "wx" });
    return "taken";
  } catch (problem) {
    const { code } = problem as NodeJS.ErrnoException;
    if (code === "EEXIST") return "held";
    // On Windows a file that is just being removed may not be opened either.
    if (code === "EPERM" && process.platform === "win32") return "held";
    return "not allowed";
  }
}

interface Held {
  readonly text: string;
  readonly ageMs: number;
  /** Null where it was killed while it wrote this. */
  readonly holder: Holder | null;
}

/** Null where there is none. */
function holderOf(lock: string): Held | null {
  try {
    const text = readFileSync(lock, "utf8");
    const ageMs = Date.now() - statSync(lock).mtimeMs;
    return { text, ageMs, holder: holderFrom(text) };
  } catch {
    return null;
  }
}

function holderFrom(text: string): Holder | null {
  try {
    const { token, process: number, computer } = JSON.parse(text) as Record<string, unknown>;
    return typeof token === "string" && Number.isInteger(number) && typeof computer === "string"
      ? { token, process: number as number, computer }
      : null;
  } catch {
    return null;
  }
}

function isLeft({ holder, ageMs }: Held): boolean {
  if (ageMs > deadAfterMs) return true;
  return holder !== null && holder.computer === hostname() && !isAlive(holder.process);
}

/** Moved aside first: of several that find it left only one moves it, and that one looks whether it was the same. */
function removeLeft(lock: string, { text }: Held): void {
  const aside = `${lock}.${randomUUID()}`;
  try {
    renameSync(lock, aside);
  } catch {
    return;
  }
  if (readFileSync(aside, "utf8") === text) rmSync(aside, { force: true });
  else renameSync(aside, lock);
}

function isAlive(number: number): boolean {
  try {
    process.kill(number, 0);
    return true;
  } catch (problem) {
    return (problem as NodeJS.ErrnoException).code === "EPERM";
  }
}

function pause(ms: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
}
