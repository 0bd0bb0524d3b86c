import { describe, expect, it } from "vitest";
import { normalsFrom } from "./normals.ts";
import { createRandom } from "./random.ts";

describe("normals of a seed's stream", () => {
  it("are those of the stream, however many were asked for before and whatever other seed came between", () => {
    const random = createRandom(5);
    const expected = Array.from({ length: 9 }, () => random.normal());
    expect([...normalsFrom(5, 3)]).toEqual(expected.slice(0, 3));
    expect([...normalsFrom(5, 9)]).toEqual(expected);
    expect([...normalsFrom(6, 2)]).not.toEqual(expected.slice(0, 2));
    expect([...normalsFrom(5, 4)]).toEqual(expected.slice(0, 4));
  });
});
