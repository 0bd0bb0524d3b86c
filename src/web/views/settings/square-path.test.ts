import { describe, expect, it } from "vitest";
import { squarePath } from "./square-path.ts";

describe("the path of a square code", () => {
  it("covers the dark squares and no light one", () => {
    const rows = [
      [true, true, false],
      [false, false, false],
      [true, false, true],
    ];
    expect(squarePath(rows)).toEqual({ size: 3, path: "M0 0h2v1h-2zM0 2h1v1h-1zM2 2h1v1h-1z" });
  });
});
