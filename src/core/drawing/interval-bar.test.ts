import { describe, expect, it } from "vitest";
import { type IntervalBar, intervalBar, placeOnBar, statusSymbol } from "./interval-bar.ts";

const bar: IntervalBar = { value: 0.1, low: -0.1, high: 0.3, limit: { size: 0.5, sides: "both" }, verdict: "within" };

describe("interval bar", () => {
  it("puts the limits of every finding at the same places", () => {
    expect(placeOnBar(0.3, 0.3, 200)).toBeCloseTo(placeOnBar(12, 12, 200), 12);
    expect(placeOnBar(0, 0.3, 200)).toBe(100);
    expect(placeOnBar(2.2, 1, 200)).toBeCloseTo(200, 12);
    expect(placeOnBar(-2.2, 1, 200)).toBeCloseTo(0, 12);
  });

  it("draws two limits for a value that may go to either side, and one for a value that is at most so much", () => {
    const limits = (of: IntervalBar) => intervalBar(of, "Squareness").match(/class="thin"/g)?.length;
    expect(limits(bar)).toBe(2);
    expect(limits({ ...bar, limit: { size: 0.5, sides: "one" } })).toBe(1);
  });

  it("ends in an open arrow where the interval goes on beyond the bar, and in a tick where it ends", () => {
    const interval = (of: IntervalBar) =>
      /class="wide bare [^"]*" d="([^"]*)"/.exec(intervalBar(of, "Squareness"))?.[1] ?? "";
    expect(interval(bar).match(/V/g)).toHaveLength(2);
    expect(interval({ ...bar, high: 5 }).match(/V/g)).toHaveLength(1);
    expect(interval({ ...bar, high: 5, low: -5 })).not.toContain("V");
  });

  it("has a sign of its own for each verdict: dot, diamond and hollow ring", () => {
    expect(statusSymbol("within")).toMatch(/<circle class="wide within"/);
    expect(statusSymbol("out")).toMatch(/<path class="out" d="M[^"]*z"/);
    expect(statusSymbol("not known yet")).toMatch(/<circle class="wide unknown"/);
    for (const verdict of ["within", "out", "not known yet"] as const)
      expect(statusSymbol(verdict)).toContain(`<title>${verdict}</title>`);
  });
});
