import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { likelyMeant } from "./typing-slip.ts";

const all = () => true;

describe("slips of the fingers", () => {
  test("two digits that changed places are put back", () => {
    expect(likelyMeant(0.53, (candidate) => candidate === 0.35, ["digits swapped"])).toBe(0.35);
    expect(likelyMeant(-1.42, (candidate) => candidate === -1.24, ["digits swapped"])).toBe(-1.24);
    expect(likelyMeant(31, (candidate) => candidate === 13, ["digits swapped"])).toBe(13);
  });

  test("a decimal mark that slipped is put back, the smaller slip first", () => {
    expect(likelyMeant(13.5, (candidate) => candidate < 3, ["mark moved"])).toBe(1.35);
    expect(likelyMeant(135, (candidate) => candidate < 3, ["mark moved"])).toBe(1.35);
    expect(likelyMeant(0.035, (candidate) => candidate > 0.05, ["mark moved"])).toBe(0.35);
  });

  test("the order of the slips decides between them", () => {
    expect(likelyMeant(1.2, all, ["digits swapped", "mark moved"])).toBe(2.1);
    expect(likelyMeant(1.2, all, ["mark moved", "digits swapped"])).toBe(0.12);
  });

  test("nothing is suggested where one slip explains nothing, and never what was typed", () => {
    expect(
      likelyMeant(53, (candidate) => candidate < 3 && Number.isInteger(candidate * 20), [
        "mark moved",
        "digits swapped",
      ]),
    ).toBeNull();
    expect(likelyMeant(11, (candidate) => candidate === 11, ["digits swapped"])).toBeNull();
    expect(likelyMeant(0, all, ["mark moved", "digits swapped"])).toBeNull();
  });

  test("whatever is suggested is possible, and one slip away", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99_999 }), fc.integer({ min: 1, max: 300 }), (typedHundredths, limit) => {
        const typed = typedHundredths / 100;
        const isPossible = (candidate: number) => candidate <= limit / 100;
        const meant = likelyMeant(typed, isPossible, ["mark moved", "digits swapped"]);
        if (meant === null) return;
        expect(isPossible(meant)).toBe(true);
        const digits = (value: number) =>
          [...value.toFixed(6).replace(".", "")]
            .filter((digit) => digit !== "0")
            .sort()
            .join("");
        expect(digits(meant)).toBe(digits(typed));
      }),
      { seed: 20250126 },
    );
  });
});
