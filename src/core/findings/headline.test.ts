import { describe, expect, it } from "vitest";
import type { FindingResult } from "./evaluate.ts";
import { headlineMeaning, headlineOf } from "./headline.ts";
import { squareness } from "./squareness.ts";

const skew: FindingResult = {
  ...({ finding: squareness, value: -2, expandedUncertainty: 0.4, low: -2.4, high: -1.6, limit: 0.5 } as FindingResult),
  verdict: "out",
};

describe("the line above all findings", () => {
  it("names what is out, and says what the first of it means on a piece of work", () => {
    expect(headlineOf([skew])).toBe("One of 1 is out: squareness of Y to X.");
    expect(headlineMeaning([skew])).toBe(
      "A line cut along Y ends 2 mm to the right of square after a metre: " +
        "the corner at the front left is narrower than 90°, and a square of 300 mm comes out 0.85 mm longer on one diagonal.",
    );
    const within: FindingResult = { ...skew, verdict: "within" };
    expect(headlineMeaning([within])).toBe("");
  });
});
