import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { LeafSet } from "./instrument.ts";
import { nextStackUp, stackLimits, stacksAround, stacksOf, stackThatMakes } from "./leaves.ts";

const twentieths: LeafSet = {
  leavesMm: Array.from({ length: 20 }, (_, index) => (index + 1) * 0.05),
  largestStack: 3,
};
const thousandths: LeafSet = {
  leavesMm: [1.5, ...Array.from({ length: 24 }, (_, index) => index + 2)].map((thou) => thou * 0.0254),
  largestStack: 3,
};
/** The common small set: tenths above 0.30. */
const thirteen: LeafSet = {
  leavesMm: [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1],
  largestStack: 3,
};

// Sets as they are sold: up to two dozen leaves, in whole hundredths, some missing.
const sets = fc.record({
  leavesMm: fc
    .uniqueArray(fc.integer({ min: 3, max: 100 }), { minLength: 1, maxLength: 24 })
    .map((hundredths) => hundredths.map((count) => count / 100)),
  largestStack: fc.integer({ min: 1, max: 3 }),
});

describe("what a set of leaves can make", () => {
  test("twenty leaves make every twentieth from 0.05 to 2.85 and nothing else", () => {
    const totals = stacksOf(twentieths).map(({ totalMm }) => totalMm);
    expect(totals).toEqual(Array.from({ length: 57 }, (_, index) => Number(((index + 1) * 0.05).toFixed(2))));
  });

  test("leaves in thousandths make 0.0015 to 0.072 in", () => {
    const { thinnestMm, thickestMm } = stackLimits(stacksOf(thousandths));
    expect(thinnestMm).toBeCloseTo(0.0381, 10);
    expect(thickestMm).toBeCloseTo(1.8288, 10);
    expect(stackThatMakes(stacksOf(thousandths), 13 * 0.0254)?.leavesMm).toEqual([0.3302]);
    // One and a half, and two, make three and a half.
    expect(stackThatMakes(stacksOf(thousandths), 3.5 * 0.0254)?.leavesMm).toHaveLength(2);
  });

  test("a set with gaps fills them by stacking, with as few leaves as it can", () => {
    const stacks = stacksOf(thirteen);
    expect(stackThatMakes(stacks, 0.35)?.leavesMm).toEqual([0.3, 0.05]);
    expect(stackThatMakes(stacks, 0.3)?.leavesMm).toEqual([0.3]);
    expect(stackThatMakes(stacks, 2.7)?.leavesMm).toEqual([1, 0.9, 0.8]);
    expect(stackThatMakes(stacks, 2.75)).toBeNull();
    expect(stackThatMakes(stacks, 0.53)).toBeNull();
  });

  test("the next stack up is the next thickness, and above the thickest there is none", () => {
    const stacks = stacksOf(twentieths);
    expect(nextStackUp(stacks, 0.6)?.totalMm).toBe(0.65);
    expect(nextStackUp(stacks, 1)?.totalMm).toBe(1.05);
    expect(nextStackUp(stacks, 2.85)).toBeNull();
  });

  test("around a thickness stand the nearest that can be made", () => {
    const { below, above } = stacksAround(stacksOf(twentieths), 0.53);
    expect([below?.totalMm, above?.totalMm]).toEqual([0.5, 0.55]);
    expect(stacksAround(stacksOf(twentieths), 0.01).below).toBeNull();
    expect(stacksAround(stacksOf(twentieths), 3).above).toBeNull();
  });

  test("every stack is made of different leaves of the set that add up to it, and none is missing", () => {
    fc.assert(
      fc.property(sets, (set) => {
        const stacks = stacksOf(set);
        for (const { totalMm, leavesMm } of stacks) {
          expect(new Set(leavesMm).size).toBe(leavesMm.length);
          expect(leavesMm.length).toBeLessThanOrEqual(set.largestStack);
          expect(set.leavesMm).toEqual(expect.arrayContaining([...leavesMm]));
          expect(leavesMm.reduce((sum, leaf) => sum + leaf, 0)).toBeCloseTo(totalMm, 9);
        }
        const hundredths = stacks.map(({ totalMm }) => Math.round(totalMm * 100));
        expect(new Set(hundredths)).toEqual(bruteForce(set));
        expect([...hundredths].sort((a, b) => a - b)).toEqual(hundredths);
      }),
      { seed: 20250124, numRuns: 50 },
    );
  });

  test("no stack uses more leaves than it needs", () => {
    fc.assert(
      fc.property(sets, (set) => {
        const fewer = new Set(set.largestStack > 1 ? bruteForce({ ...set, largestStack: set.largestStack - 1 }) : []);
        for (const { totalMm, leavesMm } of stacksOf(set)) {
          if (fewer.has(Math.round(totalMm * 100))) expect(leavesMm.length).toBeLessThan(set.largestStack);
        }
      }),
      { seed: 20250125, numRuns: 50 },
    );
  });
});

/** Every sum of at most three different leaves, by three loops. */
function bruteForce({ leavesMm, largestStack }: LeafSet): Set<number> {
  const leaves = leavesMm.map((leaf) => Math.round(leaf * 100));
  const sums = new Set<number>(leaves);
  for (const [a, first] of leaves.entries()) {
    for (const [b, second] of leaves.entries()) {
      if (b <= a || largestStack < 2) continue;
      sums.add(first + second);
      if (largestStack >= 3) for (const third of leaves.slice(b + 1)) sums.add(first + second + third);
    }
  }
  return sums;
}
