import { createHash, timingSafeEqual } from "node:crypto";
import type { Surroundings } from "../app/surroundings.ts";
import type { Role } from "./roles.ts";

/** No 0 and O, no 1, I and L: 31 signs that nobody takes for one another. */
export const codeAlphabet = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
export const codeLength = 8;
const inForceMs = 600_000;

/** From one address so many may be wrong before waiting begins; then each wrong one doubles the wait. */
const freeOfOne = 3;
/** The same over all addresses together. */
const freeOfAll = 10;
const longestWaitMs = 300_000;
/** So long after its last wrong code an address begins anew. */
const forgottenMs = 3_600_000;
const mostAddresses = 1000;

export interface Offer {
  readonly code: string;
  readonly role: Role;
  readonly untilMs: number;
}

/** The code stands behind the hash, which a browser does not send and no log sees. */
export function pairingLink(address: string, code: string): string {
  return `${address}/#pair=${code}`;
}

export type Tried =
  | { readonly result: "paired"; readonly role: Role }
  | { readonly result: "wrong" }
  | { readonly result: "not in force" }
  | { readonly result: "wait"; readonly seconds: number };

interface Wrong {
  readonly count: number;
  readonly lastMs: number;
  readonly nextMs: number;
}

const none: Wrong = { count: 0, lastMs: 0, nextMs: 0 };

/**
 * The one code that is in force, and how often it has been guessed. In its ten minutes fewer than twenty guesses are
 * compared, from however many addresses they come: a chance of 20 in 31⁸.
 */
export class Pairing {
  readonly #source: Pick<Surroundings, "nowMs" | "randomBytes">;
  #offer: Offer | null = null;
  #ofAll: Wrong = none;
  readonly #ofOne = new Map<string, Wrong>();

  constructor(source: Pick<Surroundings, "nowMs" | "randomBytes">) {
    this.#source = source;
  }

  /** A new code, in the place of the one before. */
  offer(role: Role): Offer {
    this.#offer = { code: this.#newCode(), role, untilMs: this.#source.nowMs() + inForceMs };
    this.#ofAll = none;
    return this.#offer;
  }

  /** Whoever has to wait is not even compared, and waiting does not become longer by asking. */
  try(typed: string, address: string): Tried {
    const now = this.#source.nowMs();
    const known = this.#ofOne.get(address);
    const ofOne = known && now - known.lastMs < forgottenMs ? known : none;
    const nextMs = Math.max(ofOne.nextMs, this.#ofAll.nextMs);
    if (now < nextMs) return { result: "wait", seconds: Math.ceil((nextMs - now) / 1000) };
    const offer = this.#offer;
    if (offer === null || now >= offer.untilMs) return { result: "not in force" };
    if (isSame(plain(typed), offer.code)) {
      this.#offer = null;
      this.#ofOne.delete(address);
      return { result: "paired", role: offer.role };
    }
    this.#ofAll = oneMore(this.#ofAll, freeOfAll, now);
    // Who has come from a thousand addresses waits with everybody else.
    if (this.#ofOne.size >= mostAddresses) this.#ofOne.clear();
    this.#ofOne.set(address, oneMore(ofOne, freeOfOne, now));
    return { result: "wrong" };
  }

  #newCode(): string {
    let code = "";
    while (code.length < codeLength) {
      for (const byte of this.#source.randomBytes(16)) {
        // Bytes beyond a whole number of alphabets would make some signs likelier than others.
        if (byte < 248 && code.length < codeLength) code += codeAlphabet[byte % codeAlphabet.length];
      }
    }
    return code;
  }
}

function oneMore({ count }: Wrong, free: number, now: number): Wrong {
  const over = count + 1 - free;
  return {
    count: count + 1,
    lastMs: now,
    nextMs: over < 0 ? 0 : now + Math.min(longestWaitMs, 2000 * 2 ** Math.min(over, 20)),
  };
}

/** As people type it: small letters, spaces and hyphens do not matter. */
function plain(typed: string): string {
  return typed.toUpperCase().replaceAll(/[\s-]/g, "");
}

function isSame(typed: string, code: string): boolean {
  const hash = (text: string) => createHash("sha256").update(text).digest();
  return timingSafeEqual(hash(typed), hash(code));
}
