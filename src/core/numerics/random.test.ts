import { describe, expect, test } from "vitest";
import { createRandom, xoshiro128StarStar } from "./random.ts";

function draw(count: number, next: () => number): number[] {
  return Array.from({ length: count }, next);
}

describe("seeded random numbers", () => {
  test("the generator gives the ten numbers of the authors’ own program for the state 1, 2, 3, 4", () => {
    expect(draw(10, xoshiro128StarStar([1, 2, 3, 4]))).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  test("the same seed gives the same stream and another seed another", () => {
    const first = draw(5, createRandom(42).uniform);
    expect(draw(5, createRandom(42).uniform)).toEqual(first);
    expect(draw(5, createRandom(43).uniform)).not.toEqual(first);
    expect(draw(5, createRandom(42 + 2 ** 40).uniform)).not.toEqual(first);
    expect(draw(5, createRandom(-42).uniform)).not.toEqual(first);
  });

  test("a fork depends on seed and label, not on what was drawn before", () => {
    const fresh = createRandom(1);
    const used = createRandom(1);
    draw(17, used.normal);
    const forked = draw(4, fresh.fork("squares").uniform);
    expect(draw(4, used.fork("squares").uniform)).toEqual(forked);
    expect(draw(4, fresh.fork("rails").uniform)).not.toEqual(forked);
    expect(draw(4, createRandom(2).fork("squares").uniform)).not.toEqual(forked);
    expect(draw(4, fresh.fork("squares").fork("squares").uniform)).not.toEqual(forked);
  });

  // Bounds below are five standard errors of the statistic, fixed seed: they cannot fail by chance.
  test("uniform draws have the moments of [0, 1)", () => {
    const values = draw(100_000, createRandom(7).uniform);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...values)).toBeLessThan(1);
    const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
    expect(Math.abs(mean - 0.5)).toBeLessThan((5 * Math.sqrt(1 / 12)) / Math.sqrt(values.length));
  });

  test("normal draws have mean 0, variance 1 and fourth moment 3", () => {
    const values = draw(100_000, createRandom(8).normal);
    const moment = (power: number) => values.reduce((sum, x) => sum + x ** power, 0) / values.length;
    const root = Math.sqrt(values.length);
    expect(Math.abs(moment(1))).toBeLessThan(5 / root);
    expect(Math.abs(moment(2) - 1)).toBeLessThan((5 * Math.sqrt(2)) / root);
    expect(Math.abs(moment(4) - 3)).toBeLessThan((5 * Math.sqrt(96)) / root);
  });

  test("half-normal draws are never negative and have mean √(2/π)", () => {
    const values = draw(100_000, createRandom(9).halfNormal);
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
    const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
    expect(Math.abs(mean - Math.sqrt(2 / Math.PI))).toBeLessThan((5 * 0.61) / Math.sqrt(values.length));
  });

  test("whole numbers and picks reach every item evenly", () => {
    const random = createRandom(10);
    const counts = [0, 0, 0, 0, 0, 0, 0];
    for (let i = 0; i < 70_000; i++) counts[random.integer(7)]! += 1;
    for (const count of counts) expect(Math.abs(count - 10_000)).toBeLessThan(5 * Math.sqrt(10_000));
    expect(new Set(draw(50, () => 0).map(() => random.pick(["a", "b", "c"])))).toEqual(new Set(["a", "b", "c"]));
  });
});
