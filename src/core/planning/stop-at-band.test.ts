import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { reduceSamples } from "../work/demand.ts";
import { bandOfAmounts, scatterOfMove } from "./stop-at-band.ts";

const largest = (limit: number) => ({ form: "largest", limit }) as const;

describe("the band of amounts", () => {
  it("is a quarter of the move to either side where no demand feels it", () => {
    expect(bandOfAmounts({ amount: 0.4, sd: 0.03 }, [])).toEqual({
      from: expect.closeTo(0.3),
      to: expect.closeTo(0.5),
      keepsDemands: true,
    });
    const same = { demand: largest(1), before: [0.5], after: [0.5] };
    expect(bandOfAmounts({ amount: -0.4, sd: 0.03 }, [same]).from).toBeCloseTo(-0.5);
  });

  it("ends where a demand uses up what it has to spare", () => {
    // 0.5 falls to 0.1 over 0.4: a slope of −1 with 0.05 up to the limit on the one side, 0.25 on the other:
    // there a quarter of the move ends it first.
    const { from, to } = bandOfAmounts({ amount: 0.4, sd: 0.01 }, [
      { demand: largest(0.15), before: [0.5], after: [0.1] },
    ]);
    expect(from).toBeCloseTo(0.35, 3);
    expect(to).toBeCloseTo(0.5, 3);
  });

  it("is never narrower than what the joint leaves to chance, and says when a demand cannot bear that", () => {
    const tight = { demand: largest(0.101), before: [0.5], after: [0.1] };
    const band = bandOfAmounts({ amount: 0.4, sd: 0.03 }, [tight]);
    expect(band.from).toBeCloseTo(0.37);
    expect(band.keepsDemands).toBe(false);
  });

  it("does not count a demand that stays out", () => {
    const out = { demand: largest(0.05), before: [0.5], after: [0.1] };
    expect(bandOfAmounts({ amount: 0.4, sd: 0.03 }, [out]).from).toBeCloseTo(0.3);
  });

  it("goes no further than chance where there is nothing further", () => {
    expect(bandOfAmounts({ amount: 1, sd: 0.2, noFurther: true }, []).to).toBeCloseTo(1.2);
  });

  it("leaves straight samples within their limit up to its ends, whatever they are", () => {
    const samples = fc.array(
      fc.tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true })),
      {
        minLength: 2,
        maxLength: 6,
      },
    );
    const amounts = fc.double({ min: 0.05, max: 2, noNaN: true }).chain((size) => fc.constantFrom(size, -size));
    fc.assert(
      fc.property(samples, amounts, fc.constantFrom("largest" as const, "spread" as const), (pairs, amount, form) => {
        const [before, after] = [pairs.map(([b]) => b), pairs.map(([, a]) => a)];
        const limit = 1.2 * reduceSamples({ form }, after) + 0.01;
        const { from, to } = bandOfAmounts({ amount, sd: 0 }, [{ demand: { form, limit }, before, after }]);
        for (const end of [from, to]) {
          const values = before.map((b, i) => b + ((after[i] - b) * end) / amount);
          expect(reduceSamples({ form }, values)).toBeLessThanOrEqual(limit + 1e-9);
        }
      }),
      { seed: 4, numRuns: 300 },
    );
  });
});

describe("the scatter of a move", () => {
  it("of what is taken up anew is its own remainder over the way", () => {
    const play = { kind: "assign", sd: 0, leaves: { "backlash.x": [0.03, 0.015] } } as const;
    expect(scatterOfMove(play, () => -0.15)).toBeCloseTo(0.1);
    expect(scatterOfMove({ kind: "add", sd: 0.03 }, () => 1)).toBe(0.03);
  });
});
