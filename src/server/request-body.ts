import type { Context } from "hono";
import { countFields, countNames } from "../logbook/json-places.ts";
import { Refused } from "./refusals.ts";

/** Deeper than any event, and more values than a body of the largest size has in earnest. */
const deepest = 12;
const mostValues = 200_000;

/** The bytes of a request's body, refused as soon as it is clear that there are too many. */
export async function bytesOf(c: Context, mostBytes: number): Promise<Uint8Array> {
  const stated = c.req.header("content-length");
  if (stated !== undefined && Number(stated) > mostBytes) throw new Refused("body-too-large");
  const reader = c.req.raw.body?.getReader();
  if (!reader) return new Uint8Array();
  const chunks: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read().catch(() => {
      throw new Refused("body-broken-off");
    });
    if (done) return Buffer.concat(chunks, length);
    length += value.length;
    if (length > mostBytes) {
      reader.cancel().catch(() => {});
      throw new Refused("body-too-large");
    }
    chunks.push(value);
  }
}

/** The media type without what stands behind it, in small letters. */
export function mediaTypeOf(c: Context): string {
  return (c.req.header("content-type") ?? "").split(";")[0]!.trim().toLowerCase();
}

/** A JSON object from the body. A page of another origin cannot send this type without asking first, which is refused. */
export async function jsonObjectOf(c: Context, mostBytes: number): Promise<Readonly<Record<string, unknown>>> {
  if (mediaTypeOf(c) !== "application/json") throw new Refused("type-unfit");
  const text = textFrom(await bytesOf(c, mostBytes));
  if (!isShallow(text)) throw new Refused("body-too-deep");
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new Refused("body-not-json");
  }
  if (typeof value !== "object" || value === null || Array.isArray(value)) throw new Refused("body-unfit");
  // Either would leave something else than what was sent.
  if (countNames(text) !== countFields(value) || namesPrototype(value)) throw new Refused("body-name-twice");
  return value as Readonly<Record<string, unknown>>;
}

function textFrom(bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new Refused("body-not-text");
  }
}

/** True where some object has a field of the name that means something to every object. */
function namesPrototype(value: unknown): boolean {
  if (typeof value !== "object" || value === null) return false;
  return Object.hasOwn(value, "__proto__") || Object.values(value).some(namesPrototype);
}

/** Looks at brackets and commas outside texts only, before anything is made of them. */
function isShallow(text: string): boolean {
  let depth = 0;
  let values = 0;
  let isInText = false;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === 0x22) isInText = !isInText;
    else if (isInText) {
      if (code === 0x5c) at += 1;
    } else if (code === 0x7b || code === 0x5b) {
      depth += 1;
      values += 1;
      if (depth > deepest) return false;
    } else if (code === 0x7d || code === 0x5d) depth -= 1;
    else if (code === 0x2c) values += 1;
  }
  return values <= mostValues;
}
