import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { showChange } from "./shown-change.ts";

const doubted = fc.record({
  value: fc.double({ min: -5, max: 5, noNaN: true }),
  expandedUncertainty: fc.double({ min: 0.001, max: 3, noNaN: true }),
});

/** Counts of thousandths, as shown. */
function thousandths(shown: string): readonly [value: number, uncertainty: number] {
  const [value, uncertainty] = shown
    .replaceAll("−", "-")
    .split(" ± ")
    .map((text) => Math.round(1000 * Number(text)));
  return [value, uncertainty];
}

describe("A shown change", () => {
  it("adds up as it is shown, no value farther than a step from what it is, no doubt smaller than it is", () => {
    fc.assert(
      fc.property(doubted, doubted, fc.double({ min: 0.001, max: 3, noNaN: true }), (before, after, uncertainty) => {
        const shown = showChange(before, after, uncertainty, "always");
        const [[was, wasU], [is, isU], [by, byU]] = [shown.before, shown.after, shown.change].map(thousandths);
        expect(was + by).toBe(is);
        const step = 1000 * Math.max(0.01, uncertainty);
        expect(Math.abs(was - 1000 * before.value)).toBeLessThanOrEqual(step + 0.01);
        expect(Math.abs(is - 1000 * after.value)).toBeLessThanOrEqual(step + 0.01);
        expect(Math.abs(by - 1000 * (after.value - before.value))).toBeLessThanOrEqual(step / 2 + 5.01);
        expect(wasU).toBeGreaterThanOrEqual(1000 * before.expandedUncertainty - 0.01);
        expect(isU).toBeGreaterThanOrEqual(1000 * after.expandedUncertainty - 0.01);
        expect(byU).toBeGreaterThanOrEqual(1000 * uncertainty - 0.01);
      }),
      { seed: 41 },
    );
  });

  it("lets the value give way that was nearer to being rounded the other way", () => {
    const at = (value: number) => ({ value, expandedUncertainty: 0.2 });
    expect(showChange(at(-0.26), at(-0.54), 0.2, "always")).toEqual({
      before: "−0.3 ± 0.2",
      after: "−0.6 ± 0.2",
      change: "−0.3 ± 0.2",
    });
    expect(showChange(at(0.2), at(0.04), 0.15, "when negative")).toEqual({
      before: "0.20 ± 0.20",
      after: "0.05 ± 0.20",
      change: "−0.15 ± 0.15",
    });
  });
});
