import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { acceptanceLimits, conformanceProbability, globalRisks, guardBand, normalPrior } from "./jcgm106.ts";

describe("conformance", () => {
  test("one side, the other side and inside make up one", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.double({ min: 0.01, max: 5, noNaN: true }),
        (y, u) => {
          const total =
            conformanceProbability(y, u, { upper: -1 }) +
            conformanceProbability(y, u, { lower: -1, upper: 2 }) +
            conformanceProbability(y, u, { lower: 2 });
          expect(total).toBeCloseTo(1, 12);
        },
      ),
      { seed: 7 },
    );
  });

  test("keeps its digits far out on either side", () => {
    const far = conformanceProbability(0, 1, { lower: 20, upper: 21 });
    expect(far).toBeGreaterThan(0);
    expect(conformanceProbability(0, 1, { lower: -21, upper: -20 }) / far).toBeCloseTo(1, 10);
  });

  test("without uncertainty it is a yes or a no, the limit itself being within", () => {
    expect(conformanceProbability(2, 0, { lower: 1, upper: 2 })).toBe(1);
    expect(conformanceProbability(2.001, 0, { lower: 1, upper: 2 })).toBe(0);
    expect(conformanceProbability(5, 0, {})).toBe(1);
  });

  test("an estimate on a guarded limit conforms with the probability the guard was made for", () => {
    for (const probability of [0.6, 0.9, 0.95, 0.999]) {
      const acceptance = acceptanceLimits({ upper: 1 }, guardBand(0.1, probability));
      expect(acceptance).not.toHaveProperty("lower");
      expect(conformanceProbability(acceptance.upper!, 0.1, { upper: 1 })).toBeCloseTo(probability, 12);
    }
  });

  test("the probability of acceptance is that of the sum of prior and measurement", () => {
    const risks = globalRisks(normalPrior(0.1, 0.3), 0.2, { lower: -0.5, upper: 0.5 }, { lower: -0.4, upper: 0.3 });
    const both = Math.hypot(0.3, 0.2);
    expect(risks.accepted).toBeCloseTo(conformanceProbability(0.1, both, { lower: -0.4, upper: 0.3 }), 12);
    expect(risks.conforming).toBeCloseTo(conformanceProbability(0.1, 0.3, { lower: -0.5, upper: 0.5 }), 12);
  });

  test("guarding acceptance lowers the consumer's risk and raises the producer's", () => {
    const prior = normalPrior(0, 0.5);
    const tolerance = { lower: -1, upper: 1 };
    const plain = globalRisks(prior, 0.1, tolerance);
    const guarded = globalRisks(prior, 0.1, tolerance, acceptanceLimits(tolerance, 0.1));
    expect(guarded.consumersRisk).toBeLessThan(plain.consumersRisk);
    expect(guarded.producersRisk).toBeGreaterThan(plain.producersRisk);
  });
});
