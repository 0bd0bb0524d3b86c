import { describe, expect, it } from "vitest";
import { askedFromQuery, queryFromAsked, withSizes } from "./work-query.ts";

const read = (text: string) => askedFromQuery(new URLSearchParams(text));

describe("what is looked at, in an address", () => {
  it("comes back as it was written", () => {
    const asked = { kind: "inlay", sizes: { circle: { radius: 50 }, square: { alongX: 200, alongY: 150.5 } } };
    expect(read(queryFromAsked(asked))).toEqual(asked);
    expect(queryFromAsked({ kind: null, sizes: {} })).toBe("");
  });

  it("passes over what is no number", () => {
    expect(read("circle=radius:wide,depth:,:3")).toEqual({ kind: null, sizes: { circle: {} } });
  });

  it("leaves out a picture whose sizes are the usual again", () => {
    expect(queryFromAsked({ kind: null, sizes: withSizes({ circle: { radius: 50 } }, "circle", {}) })).toBe("");
  });
});
