import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { showDemand } from "./shown-demand.ts";

describe("A shown demand", () => {
  it("stands in one step that its interval deserves", () => {
    expect(showDemand({ low: 0.004, median: 0.08, high: 0.251 })).toEqual({
      value: "0.10",
      interval: "0.00 to 0.30",
      whole: "0.10 (0.00 to 0.30)",
      short: "0.10 (0.00…0.30)",
    });
    expect(showDemand({ low: 1.809, median: 1.982, high: 2.153 }).whole).toBe("2.0 (1.8 to 2.2)");
    expect(showDemand({ low: 0.3, median: 0.3, high: 0.3 }).whole).toBe("0.30 (0.30 to 0.30)");
  });

  it("never shows an interval that is narrower than it is, nor a value outside of it", () => {
    const three = fc.array(fc.double({ min: 0, max: 20, noNaN: true }), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(three, (numbers) => {
        const [low, median, high] = [...numbers].sort((a, b) => a - b);
        const { value, interval } = showDemand({ low, median, high });
        const [from, to] = interval.split(" to ").map(Number);
        expect(from).toBeLessThanOrEqual(low + 1e-7);
        expect(to).toBeGreaterThanOrEqual(high - 1e-7);
        expect(Number(value)).toBeGreaterThanOrEqual(from);
        expect(Number(value)).toBeLessThanOrEqual(to);
      }),
      { seed: 42 },
    );
  });
});
