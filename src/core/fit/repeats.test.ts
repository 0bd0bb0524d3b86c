import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { repeatedReading } from "../instruments/reading-uncertainty.ts";
import { type Repeat, repeatsTogether, slipsAmong } from "./repeats.ts";

const repeats = (sd: number, ...values: readonly number[]): readonly Repeat[] =>
  values.map((value) => ({ value, variance: sd ** 2 }));

describe("repeats taken together", () => {
  it("are known as the mean of readings that are as good as their tool, where they agree", () => {
    const { mean, variance } = repeatsTogether(repeats(0.02, 0.3, 0.31, 0.29, 0.3));
    expect(mean).toBeCloseTo(0.3, 12);
    expect(Math.sqrt(variance)).toBeCloseTo(0.01, 12);
  });

  it("have the uncertainty of GUM §4.2.3 from what they scatter, where that is more than the tool's", () => {
    const dial = { measures: "length", settingMm: 0.02, lasts: "none" } as const;
    fc.assert(
      fc.property(fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2, maxLength: 6 }), (values) => {
        const own = repeatedReading(dial, values);
        const { mean, variance } = repeatsTogether(repeats(0.02, ...values));
        expect(mean).toBeCloseTo(own.mean, 9);
        expect(Math.sqrt(variance)).toBeCloseTo(own.standardUncertainty, 9);
      }),
      { seed: 7 },
    );
  });
});

describe("slips among repeats", () => {
  const leaves = 0.025;

  it("are the one of three that the other two contradict, whatever the rest expects", () => {
    const three = repeats(leaves, 2.45, 0.25, 0.3);
    for (const expected of [null, { value: 2.4, variance: 1 }, { value: 0.3, variance: 0.01 }]) {
      const slips = slipsAmong(three, expected);
      expect(slips.map(({ index }) => index)).toEqual([0]);
      expect(slips[0]).toMatchObject({ isOpen: false });
      expect(slips[0].away).toBeCloseTo(2.175, 9);
    }
  });

  it("are the far one alone where the other two differ by less than would be told from the rest", () => {
    expect(
      slipsAmong(repeats(leaves, 2.45, 0.25, 0.45), { value: 0.4, variance: 1 }).map(({ index }) => index),
    ).toEqual([0]);
  });

  it("of two are told by what is expected, and are open where that says too little", () => {
    const two = repeats(leaves, 2.45, 0.25);
    expect(slipsAmong(two, { value: 0.4, variance: 0.04 })).toMatchObject([{ index: 0, isOpen: false }]);
    expect(slipsAmong(two, { value: 2.4, variance: 0.04 })).toMatchObject([{ index: 1, isOpen: false }]);
    for (const expected of [null, { value: 1.3, variance: 1 }])
      expect(slipsAmong(two, expected).map(({ isOpen }) => isOpen)).toEqual([true, true]);
  });

  it("are none where repeats differ by what their tool lets them", () => {
    expect(slipsAmong(repeats(leaves, 0.25, 0.3, 0.3), { value: 5, variance: 0.01 })).toEqual([]);
    expect(slipsAmong(repeats(leaves, 0.25), { value: 5, variance: 0.01 })).toEqual([]);
  });

  it("are the same in any order", () => {
    const typed = [0.25, 2.45, 0.3, 0.28];
    fc.assert(
      fc.property(fc.shuffledSubarray(typed, { minLength: 4 }), (values) => {
        const slips = slipsAmong(repeats(leaves, ...values), null);
        expect(slips.map(({ index }) => values[index])).toEqual([2.45]);
      }),
      { seed: 8 },
    );
  });
});
