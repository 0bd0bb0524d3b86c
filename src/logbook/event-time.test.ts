import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { eventTimeFromInstant, instantFromEventTime } from "./event-time.ts";

describe("an event's time", () => {
  test.each([
    ["2026-03-14T16:22:05+01:00", Date.UTC(2026, 2, 14, 15, 22, 5)],
    ["2026-03-14T15:22:05Z", Date.UTC(2026, 2, 14, 15, 22, 5)],
    ["1969-12-31T23:59:59Z", -1000],
    ["2024-02-29T00:00:00-09:30", Date.UTC(2024, 1, 29, 9, 30)],
    ["2026-01-01T00:00:00.5+14:00", Date.UTC(2025, 11, 31, 10, 0, 0, 500)],
    ["2000-02-29T12:00:00Z", Date.UTC(2000, 1, 29, 12)],
  ])("%s is the instant %i", (text, instant) => {
    expect(instantFromEventTime(text)).toBe(instant);
  });

  test.each([
    "2026-03-14T16:22:05",
    "2026-03-14 16:22:05+01:00",
    "2026-03-14",
    "2026-02-29T00:00:00Z",
    "2100-02-29T00:00:00Z",
    "2026-13-01T00:00:00Z",
    "2026-00-10T00:00:00Z",
    "2026-04-31T00:00:00Z",
    "2026-04-00T00:00:00Z",
    "2026-04-30T24:00:00Z",
    "2026-04-30T12:60:00Z",
    "2026-06-30T23:59:60Z",
    "2026-04-30T12:00:00+24:00",
    "2026-04-30T12:00:00+0100",
    "14.03.2026",
    "",
  ])("“%s” is no time", (text) => {
    expect(instantFromEventTime(text)).toBeNull();
  });

  test("every instant to the millisecond survives being written at any offset and read again", () => {
    // The year is written with four digits, so instants stay within the years 1 to 9998.
    const instants = fc.integer({ min: Date.UTC(2, 0, 1), max: Date.UTC(9998, 0, 1) });
    fc.assert(
      fc.property(instants, fc.integer({ min: -1439, max: 1439 }), (instant, offset) => {
        expect(instantFromEventTime(eventTimeFromInstant(instant, offset))).toBe(instant);
      }),
      { seed: 1, numRuns: 2000 },
    );
  });

  test("agrees with the engine's own calendar", () => {
    fc.assert(
      fc.property(fc.integer({ min: Date.UTC(1600, 0, 1), max: Date.UTC(9998, 0, 1) }), (instant) => {
        const text = new Date(instant).toISOString();
        expect(instantFromEventTime(text)).toBe(Date.parse(text));
      }),
      { seed: 2, numRuns: 2000 },
    );
  });
});
