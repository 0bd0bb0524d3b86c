import { invariant } from "../core/base/invariant.ts";

/** An event's id: version 7 of [RFC 9562 §5.7], in lower case. */
export const eventIdPattern = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

export function isEventId(text: string): boolean {
  return eventIdPattern.test(text);
}

/**
 * A new event's id: 48 bits of time, then 74 random bits, so that ids made one after the other sort in that order and
 * two devices never make the same. Time (ms since 1970, whole) and ten random bytes come from the caller, who has a
 * clock and a source of randomness; both are known only at the edge of the process.
 */
export function eventIdFrom(timeMs: number, randomBytes: Uint8Array): string {
  invariant(Number.isInteger(timeMs) && timeMs >= 0 && timeMs < 2 ** 48, "time of an id is a whole number of 48 bits");
  invariant(randomBytes.length >= 10, "an id needs ten random bytes");
  const time = timeMs.toString(16).padStart(12, "0");
  const random = Array.from(randomBytes.subarray(0, 10), (byte) => byte.toString(16).padStart(2, "0")).join("");
  const variant = (8 | (Number.parseInt(random[4]!, 16) & 3)).toString(16);
  return `${time.slice(0, 8)}-${time.slice(8)}-7${random.slice(0, 3)}-${variant}${random.slice(5, 8)}-${random.slice(8, 20)}`;
}

/** The time inside an id, in ms since 1970. What counts is an event's own time; this only helps to look at ids. */
export function timeOfEventId(id: string): number {
  invariant(isEventId(id), "not an event's id");
  return Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
}
