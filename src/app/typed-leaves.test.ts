import { describe, expect, it } from "vitest";
import { leafCounts, leavesFromText, leavesInWords } from "./typed-leaves.ts";

const read = (text: string) => {
  const leaves = leavesFromText(text, "leaves");
  return leaves.ok ? leaves.value : leaves.diagnostics.map(({ code }) => code);
};

describe("leaves as they are typed", () => {
  it("are thicknesses, each as often as is said, with a space or a plus between them", () => {
    expect(read("0.5 0,1x3")).toEqual([0.5, 0.1, 0.1, 0.1]);
    expect(read("0.2+0.05")).toEqual([0.2, 0.05]);
    expect(read("")).toEqual([]);
  });

  it("are refused where one of them is none", () => {
    for (const text of ["thin", "0", "0.1x0", "0.1x2x3", "−0.2"]) expect(read(text)).toEqual(["word-form"]);
  });

  it("are said by thickness and count", () => {
    expect(leavesInWords([0.1, 0.1, 0.05])).toBe("0.1 × 2, 0.05");
    expect([...leafCounts([0.1, 0.1, 0.05])]).toEqual([
      [0.1, 2],
      [0.05, 1],
    ]);
  });
});
