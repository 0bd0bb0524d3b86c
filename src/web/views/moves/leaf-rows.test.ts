import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LeafRow, leafRows, leavesInUnit, leavesOf } from "./leaf-rows.ts";

const row = (thickness: string, count = "1"): LeafRow => ({ thickness, count, madeFrom: null });

describe("a list of leaves that is typed", () => {
  it("holds the leaves it was made from, to the last digit, in whatever unit it is shown", () => {
    const leaves = fc.array(fc.constantFrom(0.05, 0.1, 0.3, 1));
    fc.assert(
      fc.property(leaves, fc.constantFrom("mm", "in", "thou"), (made, unit) => {
        const sorted = [...made].sort((a, b) => a - b);
        expect(leavesOf(leafRows(sorted, unit as "mm"), unit as "mm")).toEqual(sorted);
      }),
      { seed: 7, numRuns: 100 },
    );
  });

  it("takes a thickness in the unit of the list, or in the unit that is typed with it", () => {
    expect(leavesOf([row("5", "2")], "thou")).toEqual([0.127, 0.127]);
    expect(leavesOf([row("0,1 mm")], "thou")).toEqual([0.1]);
    expect(leavesOf([row("0.002")], "in")).toEqual([0.0508]);
  });

  it("is none while a thickness or a count is no leaf's", () => {
    for (const [thickness, count] of [
      ["", "1"],
      ["0", "1"],
      ["-0.1", "1"],
      ["21", "1"],
      ["0.1+0.2", "1"],
      ["thin", "1"],
      ["0.1", "0"],
      ["0.1", "101"],
      ["0.1", "two"],
    ])
      expect(leavesOf([row("0.5"), row(thickness, count)], "mm")).toBeNull();
  });

  it("is said in the user's unit", () => {
    expect(leavesInUnit([0.05, 0.05, 0.1], "mm")).toBe("0.05 × 2, 0.1 mm");
    expect(leavesInUnit([0.0508, 0.127], "thou")).toBe("2, 5 thou");
    expect(leavesInUnit([0.0508], "in")).toBe("0.002 in");
  });
});
