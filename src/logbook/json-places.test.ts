import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { countFields, countNames, jsonPlaces } from "./json-places.ts";

describe("places in a piece of JSON", () => {
  test("are those of every field, by its path", () => {
    const text = '{ "a": 1, "b": {"c": [true, {"d": null}]} }';
    const value = (path: string) => text.slice(jsonPlaces(text).fields.find((field) => field.path === path)!.value);
    expect(value("a")).toMatch(/^1/);
    expect(value("b")).toMatch(/^\{"c"/);
    expect(value("b.c.0")).toMatch(/^true/);
    expect(value("b.c.1.d")).toMatch(/^null/);
    const key = jsonPlaces(text).fields.find((field) => field.path === "b.c.1.d")!.key;
    expect(text.slice(key)).toMatch(/^"d"/);
  });

  test("of a name that stands twice is the second, however it is written", () => {
    const text = '{"a":1,"\\u0061":2}';
    expect(jsonPlaces(text).twice).toEqual({ path: "a", key: 7, value: 16 });
    expect(jsonPlaces('{"a":{"a":1},"b":{"a":1}}').twice).toBeNull();
  });

  test.each([
    ['{"a":1', 6, "comma or end"],
    ['{"a" 1}', 5, "colon"],
    ['{"a":}', 5, "value"],
    ["{a:1}", 1, "name"],
    ['{"a":1,}', 7, "name"],
    ["[1,2,]", 5, "value"],
    ['{"a":"b}', 8, "end of text"],
    ['{"a":"\\x"}', 6, "escape"],
    ['{"a":"\\u12g4"}', 6, "escape"],
    ['{"a":1} {', 8, "end of line"],
    ['{"a":01}', 6, "comma or end"],
    ['{"a":+1}', 5, "value"],
    ['{"a":1.}', 6, "comma or end"],
    ['{"a":NaN}', 5, "value"],
    ["", 0, "value"],
  ])("%s stops being JSON at %i, where %s is expected", (text, offset, expected) => {
    expect(jsonPlaces(text).fault).toEqual({ offset, expected });
    expect(() => JSON.parse(text)).toThrow();
  });

  test("finds a fault exactly where the engine finds one", () => {
    // Pieces of JSON put together at random: about as often sound as not.
    const piece = fc.constantFrom(
      "{",
      "}",
      "[",
      "]",
      ",",
      ":",
      '"a"',
      '"\\n"',
      "1",
      "-0.5e3",
      "true",
      "null",
      " ",
      '"',
      "\\",
    );
    let sound = 0;
    fc.assert(
      fc.property(
        fc.oneof(
          fc.json({ maxDepth: 3 }),
          fc.array(piece, { maxLength: 7 }).map((list) => list.join("")),
        ),
        (text) => {
          let isJson = true;
          try {
            JSON.parse(text);
            sound += 1;
          } catch {
            isJson = false;
          }
          expect(jsonPlaces(text).fault === null).toBe(isJson);
        },
      ),
      { seed: 41, numRuns: 5000 },
    );
    expect(sound).toBeGreaterThan(1000);
  });
});

describe("counting fields", () => {
  test("gives the same for text and value exactly when no name stands twice", () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 4 }), (text) => {
        expect(countNames(text)).toBe(countFields(JSON.parse(text)));
      }),
      { seed: 42, numRuns: 2000 },
    );
    expect(countNames('{"a" : {"b"\t:[ ] } }')).toBe(2);
    expect(countNames('{"a:b":"c:\\":d","e":{"f":1,"f":1}}')).toBe(4);
    expect(countFields(JSON.parse('{"a:b":"c:\\":d","e":{"f":1,"f":1}}'))).toBe(3);
  });
});
