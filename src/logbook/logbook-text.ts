/** What is asked of the platform here: the one way from bytes to text that every engine has, free of any I/O. */
declare const TextDecoder: new (
  encoding: "utf-8",
  options: { fatal: boolean; ignoreBOM: boolean },
) => { decode(bytes: Uint8Array): string };

/** The text of a logbook in two parts: whole lines, and what stands behind the last line end. */
export type LogbookText =
  | {
      readonly ok: true;
      /** All lines that have an end, without a byte order mark. */
      readonly whole: string;
      /** What follows the last line end: "" in a file that was closed in order. */
      readonly rest: string;
      /** How many bytes the rest is in UTF-8, or was in the file. */
      readonly restBytes: number;
    }
  | { readonly ok: false; readonly fault: "too long" }
  /** `line` is the first one that holds bytes no text has, counted from 1. */
  | { readonly ok: false; readonly fault: "not text"; readonly line: number };

const lineEnd = 0x0a;

// The longest text of the common engines is just under 2²⁹ characters.
const mostBytes = 2 ** 29 - 1024;

/**
 * Bytes to text. A power cut can leave half a character, or a block of zero bytes, behind the last line end, so only what
 * stands before it must be text without a fault; the rest is read as well as it goes.
 */
export function textFromBytes(bytes: Uint8Array): LogbookText {
  if (bytes.length > mostBytes) return { ok: false, fault: "too long" };
  const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  const cut = Math.max(mark, bytes.lastIndexOf(lineEnd) + 1);
  const whole = decode(bytes.subarray(mark, cut));
  if (whole === null) return { ok: false, fault: "not text", line: firstBadLine(bytes) };
  const rest = new TextDecoder("utf-8", { fatal: false, ignoreBOM: true }).decode(bytes.subarray(cut));
  return withoutZeros(whole, rest, bytes.length - cut);
}

/** The same for what is a text already, from a field to paste into or from a test. */
export function textFromString(text: string): LogbookText {
  const bare = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  const cut = bare.lastIndexOf("\n") + 1;
  return withoutZeros(bare.slice(0, cut), bare.slice(cut), utf8Length(bare.slice(cut)));
}

function withoutZeros(whole: string, rest: string, restBytes: number): LogbookText {
  const zero = whole.indexOf("\0");
  if (zero < 0) return { ok: true, whole, rest, restBytes };
  return { ok: false, fault: "not text", line: whole.slice(0, zero).split("\n").length };
}

function decode(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}

function firstBadLine(bytes: Uint8Array): number {
  let line = 1;
  for (let start = 0; ; line += 1) {
    const end = bytes.indexOf(lineEnd, start);
    if (end < 0 || decode(bytes.subarray(start, end)) === null) return line;
    start = end + 1;
  }
}

function utf8Length(text: string): number {
  let bytes = 0;
  for (const character of text) {
    const code = character.codePointAt(0)!;
    bytes += code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
  }
  return bytes;
}
