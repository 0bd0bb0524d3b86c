import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { batchesOf } from "./batches.ts";
import type { Unsent } from "./store.ts";

const entries = fc
  .array(fc.record({ machine: fc.constantFrom("a", "b"), begins: fc.boolean() }), { maxLength: 1500 })
  .map((list) => list.map((one, place) => ({ ...one, place, event: {} }) as unknown as Unsent));

describe("what waits to be sent", () => {
  it("goes out in the order in which it was made, each entry once", () => {
    fc.assert(
      fc.property(entries, (list) => {
        expect(batchesOf(list).flat()).toEqual(list);
      }),
      { seed: 4713 },
    );
  });

  it("is of one machine in each message, and begins a machine only at the head of one", () => {
    fc.assert(
      fc.property(entries, (list) => {
        for (const batch of batchesOf(list)) {
          expect(new Set(batch.map(({ machine }) => machine)).size).toBe(1);
          expect(batch.slice(1).some(({ begins }) => begins)).toBe(false);
          expect(batch.length).toBeLessThanOrEqual(500);
        }
      }),
      { seed: 4714 },
    );
  });
});
