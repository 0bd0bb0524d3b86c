import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inverseOf, negativeOf, numberFromRatio, productOf, ratio, sumOf } from "./exact-ratio.ts";

// Far more digits than anybody types, so that sums and products outgrow a double.
const anyRatio = fc
  .tuple(fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n }), fc.bigInt({ min: 1n, max: 10n ** 30n }))
  .map(([numerator, denominator]) => ratio(numerator, denominator));

describe("exact ratios", () => {
  test("a ratio is kept in lowest terms", () => {
    expect(ratio(-6n, 4n)).toEqual({ numerator: -3n, denominator: 2n });
    expect(ratio(0n, 7n)).toEqual({ numerator: 0n, denominator: 1n });
  });

  test("adding and taking away again gives the same ratio", () => {
    fc.assert(
      fc.property(anyRatio, anyRatio, (a, b) => {
        expect(sumOf(sumOf(a, b), negativeOf(b))).toEqual(a);
      }),
      { seed: 20250102 },
    );
  });

  test("multiplying and dividing again gives the same ratio", () => {
    fc.assert(
      fc.property(anyRatio, anyRatio, (a, b) => {
        fc.pre(b.numerator > 0n);
        expect(productOf(productOf(a, b), inverseOf(b))).toEqual(a);
      }),
      { seed: 20250103 },
    );
  });

  test("a tenth and two tenths are three tenths as a number, and nothing is never minus nothing", () => {
    expect(numberFromRatio(sumOf(ratio(1n, 10n), ratio(2n, 10n)))).toBe(0.3);
    expect(Object.is(numberFromRatio(negativeOf(ratio(0n, 1n))), 0)).toBe(true);
  });
});
