import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { eventIdFrom, isEventId, timeOfEventId } from "./event-id.ts";

const bytes = fc.uint8Array({ minLength: 10, maxLength: 10 });
const time = fc.integer({ min: 0, max: 2 ** 48 - 1 });

describe("an event's id", () => {
  // [RFC 9562 App. A.6]: the published example, its time and its random bits.
  test("is the published example for the published time and bits", () => {
    const random = Uint8Array.from([0xcc, 0x30, 0x98, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
    const id = eventIdFrom(0x017f22e279b0, random);
    expect(id.slice(0, 18)).toBe("017f22e2-79b0-7cc3");
    expect(isEventId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")).toBe(true);
    expect(timeOfEventId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")).toBe(Date.UTC(2022, 1, 22, 19, 22, 22));
  });

  test("is always of the form that the logbook asks for, and keeps its time", () => {
    fc.assert(
      fc.property(time, bytes, (at, random) => {
        const id = eventIdFrom(at, random);
        expect(isEventId(id)).toBe(true);
        expect(timeOfEventId(id)).toBe(at);
      }),
      { seed: 3 },
    );
  });

  test("sorts by its time", () => {
    fc.assert(
      fc.property(time, time, bytes, bytes, (a, b, first, second) => {
        fc.pre(a < b);
        expect(eventIdFrom(a, first) < eventIdFrom(b, second)).toBe(true);
      }),
      { seed: 4 },
    );
  });

  test("differs wherever one of its 74 random bits differs", () => {
    const zero = eventIdFrom(0, new Uint8Array(10));
    let different = 0;
    for (let bit = 0; bit < 80; bit += 1) {
      const random = new Uint8Array(10);
      random[bit >> 3] = 1 << (bit & 7);
      if (eventIdFrom(0, random) !== zero) different += 1;
    }
    expect(different).toBe(74);
  });
});
