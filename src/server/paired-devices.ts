import { createHash } from "node:crypto";
import { existsSync, readFileSync, renameSync } from "node:fs";
import type { Surroundings } from "../app/surroundings.ts";
import { writeWhole } from "./data-file.ts";
import type { Role } from "./roles.ts";

export interface PairedDevice {
  /** Twelve hexadecimal digits; no secret. */
  readonly id: string;
  /** As the device or its user called it; "" where nobody did. */
  readonly name: string;
  readonly role: Role;
  readonly pairedMs: number;
  readonly seenMs: number;
  /** SHA-256 of its token, in hexadecimal digits: who reads the file cannot come in with it. */
  readonly tokenHash: string;
}

const dayMs = 86_400_000;
/** A device that has not been seen for so long is forgotten. */
const idleMs = 30 * dayMs;
/** However often it is seen, after this it is paired anew. */
export const longestMs = 180 * dayMs;
/** Seen again within this time is not worth a write. */
const seenAnewMs = 3_600_000;

export const mostDevices = 64;

type Source = Pick<Surroundings, "nowMs" | "randomBytes">;

/** The devices that were let in from the network, kept in a small file of its own. */
export class PairedDevices {
  readonly #file: string | null;
  readonly #source: Source;
  readonly #byHash = new Map<string, PairedDevice>();
  #isWritten = true;

  /** Without a file nothing outlives the process. `isReadable` is false where a file was there and could not be read. */
  constructor(file: string | null, source: Source) {
    this.#file = file;
    this.#source = source;
    const kept = file === null ? [] : readDevices(file);
    this.isReadable = kept !== null;
    for (const device of kept ?? []) this.#byHash.set(device.tokenHash, device);
  }

  readonly isReadable: boolean;

  get isFull(): boolean {
    return this.list().length >= mostDevices;
  }

  /** The new device, and the token that is its only proof: 256 random bits, told once and kept nowhere. */
  pair(role: Role, name: string): { readonly device: PairedDevice; readonly token: string } {
    const token = Buffer.from(this.#source.randomBytes(32)).toString("base64url");
    const now = this.#source.nowMs();
    const id = Buffer.from(this.#source.randomBytes(6)).toString("hex");
    const device = { id, name, role, pairedMs: now, seenMs: now, tokenHash: hashOf(token) };
    this.#byHash.set(device.tokenHash, device);
    this.#write();
    return { device, token };
  }

  /** Looked up by hash, so that how long it takes says nothing about any token. */
  byToken(token: string): PairedDevice | null {
    const device = this.#byHash.get(hashOf(token));
    if (!device || this.#isOver(device)) return null;
    const now = this.#source.nowMs();
    if (now - device.seenMs < seenAnewMs) return device;
    const seen = { ...device, seenMs: now };
    this.#byHash.set(seen.tokenHash, seen);
    this.#isWritten = false;
    return seen;
  }

  byId(id: string): PairedDevice | null {
    return this.list().find((device) => device.id === id) ?? null;
  }

  list(): readonly PairedDevice[] {
    for (const device of [...this.#byHash.values()]) {
      if (this.#isOver(device)) this.#byHash.delete(device.tokenHash);
    }
    return [...this.#byHash.values()];
  }

  /** False where there is no such device. */
  revoke(id: string): boolean {
    const device = this.byId(id);
    if (device === null) return false;
    this.#byHash.delete(device.tokenHash);
    this.#write();
    return true;
  }

  /** Writes when devices were last seen, if that has changed. */
  flush(): void {
    if (!this.#isWritten) this.#write();
  }

  expiresMs({ pairedMs, seenMs }: PairedDevice): number {
    return Math.min(pairedMs + longestMs, seenMs + idleMs);
  }

  #isOver(device: PairedDevice): boolean {
    return this.expiresMs(device) <= this.#source.nowMs();
  }

  #write(): void {
    this.#isWritten = true;
    if (this.#file === null) return;
    writeWhole(this.#file, `${JSON.stringify({ v: 1, devices: this.list() }, null, 1)}\n`);
  }
}

function hashOf(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}

/** Null where the file is there and is not one of ours; it is moved aside, and every device is paired anew. */
function readDevices(file: string): readonly PairedDevice[] | null {
  if (!existsSync(file)) return [];
  try {
    const { v, devices } = JSON.parse(readFileSync(file, "utf8")) as { v: unknown; devices: unknown };
    if (v === 1 && Array.isArray(devices) && devices.every(isDevice)) return devices;
  } catch {
    // Told by whoever opened it.
  }
  renameSync(file, `${file}.unreadable`);
  return null;
}

function isDevice(value: unknown): value is PairedDevice {
  const { id, name, role, pairedMs, seenMs, tokenHash } = (value ?? {}) as Record<string, unknown>;
  return (
    typeof id === "string" &&
    typeof name === "string" &&
    (role === "owner" || role === "helper") &&
    typeof pairedMs === "number" &&
    typeof seenMs === "number" &&
    typeof tokenHash === "string" &&
    /^[0-9a-f]{64}$/.test(tokenHash)
  );
}
