import type { Diagnostic } from "../core/base/diagnostic.ts";
import { wordsForDiagnostic } from "../core/base/diagnostic-words.ts";

/** What the server does not do, each with its status and its words. Codes are stable: page and tests compare them. */
export const refusals = {
  "host-foreign": [421, "The server answers only under the addresses it printed when it started. Open one of those."],
  "origin-foreign": [403, "The request comes from another page than the server's own. Open the server's own address."],
  "not-paired": [401, "This device is not paired. Enter the code that the server shows on its screen."],
  "owner-only": [403, "Only an owner may do this. Do it on the computer that the server runs on, or pair as an owner."],
  "path-unknown": [404, "Nothing is kept under this address."],
  "machine-unknown": [404, "There is no such machine here. It may have been deleted on another device."],
  "photograph-unknown": [404, "There is no such photograph here, or its picture has been removed."],
  "device-unknown": [404, "There is no such device among the paired ones."],
  "address-unfit": [400, "A part of the address is not written as it has to be."],
  "body-broken-off": [400, "What was sent broke off before its end. Send it again."],
  "body-not-text": [400, "What was sent is not text in UTF-8."],
  "body-not-json": [400, "What was sent is not JSON."],
  "body-too-deep": [400, "What was sent is nested more deeply, or has more parts, than anything that is kept here."],
  "body-name-twice": [400, "In what was sent a name stands twice in one object, or means something to every object."],
  "body-unfit": [400, "What was sent does not have the fields that this address takes."],
  "body-too-large": [413, "What was sent is larger than this address takes."],
  "type-unfit": [415, "What was sent is not of a type that this address takes."],
  "machine-there": [409, "A machine with this id is there already, and it is another one."],
  "name-differs": [409, "The name that was typed is not the machine's name. Nothing has been deleted."],
  "picture-differs": [422, "The picture is not the one that its checksum belongs to. Send it again."],
  "picture-unfit": [422, "This picture is not kept. What is wrong with it stands beside."],
  "events-refused": [422, "The events do not fit what the logbook holds. Nothing has been added."],
  "logbook-refused": [
    422,
    "The file is not taken in: it is no logbook, or something in it is not right. Nothing has been added.",
  ],
  "not-shared": [409, "The server is not shared on a network, so there is nothing to pair."],
  "code-not-in-force": [
    409,
    "No code is in force: it has been used, or its time is over. Let the server make a new one.",
  ],
  "code-wrong": [403, "This is not the code that the server shows."],
  "pairing-too-often": [429, "Too many codes were tried. Wait, and then look at the code again."],
  "devices-full": [409, "As many devices are paired as the server keeps. Remove one that is not used any more."],
  "live-too-many": [429, "Too many live connections are open, or were opened in a short time. Close some pages."],
  "requests-too-many": [429, "This device asks for more than the server can give. Wait a moment."],
  "disk-refuses": [503, "The server's disk takes nothing at the moment. Nothing has been added; send it again later."],
  "slip-of-ours": [
    500,
    "Something is wrong in the program itself. Nothing is known to be lost; the log says where it was.",
  ],
} as const satisfies Record<string, readonly [status: number, words: string]>;

export type RefusalCode = keyof typeof refusals;

/** Ends the handling of a request; answered and logged in one place. */
export class Refused extends Error {
  readonly code: RefusalCode;
  readonly diagnostics: readonly Diagnostic[] | null;
  readonly retryAfterS: number | null;

  constructor(
    code: RefusalCode,
    more: { readonly diagnostics?: readonly Diagnostic[]; readonly retryAfterS?: number } = {},
  ) {
    super(code);
    this.code = code;
    this.diagnostics = more.diagnostics ?? null;
    this.retryAfterS = more.retryAfterS ?? null;
  }
}

export function refusalResponse({ code, diagnostics, retryAfterS }: Refused): Response {
  const [status, words] = refusals[code];
  const told = diagnostics?.map(toldDiagnostic);
  const headers: Record<string, string> = { "Content-Type": "application/json; charset=utf-8" };
  if (retryAfterS !== null) headers["Retry-After"] = String(retryAfterS);
  const body = JSON.stringify({ error: { code, words }, ...(told && { diagnostics: told }) });
  return new Response(body, { status, headers });
}

/** A diagnostic as it goes over the wire: what the caller needs to show it without the table of words. */
export function toldDiagnostic(diagnostic: Diagnostic): object {
  return { ...diagnostic, words: wordsForDiagnostic(diagnostic.code, diagnostic.data) };
}
