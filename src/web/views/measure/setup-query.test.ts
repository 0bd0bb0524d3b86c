import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { choiceFromQuery, queryFromChoice } from "./setup-query.ts";

describe("a run's set-up in an address", () => {
  it("comes back as it was written, whatever is chosen", () => {
    const word = fc.stringMatching(/^[a-z][a-z -]{0,20}[a-z]$/);
    const choice = fc.record({
      instrument: word,
      objects: fc.dictionary(word, word),
      options: fc.dictionary(word, fc.oneof(word, fc.integer({ min: -500, max: 500 }))),
      conditions: fc.record({ hose: fc.constantFrom("on", "off"), temperatureC: fc.integer({ min: -10, max: 40 }) }),
    });
    fc.assert(
      fc.property(choice, (chosen) => {
        const query = new URLSearchParams(queryFromChoice(chosen));
        expect(choiceFromQuery("bed-touch", query)).toEqual({ check: "bed-touch", ...chosen });
      }),
      { seed: 4711 },
    );
  });

  it("is nothing where nothing is chosen", () => {
    expect(queryFromChoice({ instrument: null, objects: {}, options: {}, conditions: {} })).toBe("");
  });
});
