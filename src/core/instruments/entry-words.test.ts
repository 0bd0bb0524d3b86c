import { describe, expect, it } from "vitest";
import { formatTrimmed } from "../base/number-format.ts";
import type { Entry } from "./entry.ts";
import { entriesByName, entriesInWords } from "./entry-words.ts";

const text = (value: number) => formatTrimmed(value, 4);
const right: Entry = { form: "interval", goes: 1.1, doesNotGo: 1.15 };
const left: Entry = { form: "value", value: 0 };
const gaps = { entries: ["right gap", "left gap"], readsSecondFirst: true } as const;

describe("the entries of a station", () => {
  it("are read with their names, in the order in which people read them", () => {
    expect(entriesByName([right, left], gaps, text)).toBe("left gap 0, right gap 1.1 to 1.15");
    expect(entriesByName([left, right], { entries: ["top gap", "bottom gap"] }, text)).toBe(
      "top gap 0, bottom gap 1.1 to 1.15",
    );
    expect(entriesByName([right], {}, text)).toBe("1.1 to 1.15");
  });

  it("stand in a list as they are typed, the first of the logbook first", () => {
    expect(entriesInWords([right, left], text)).toBe("1.1 / 1.15 : 0");
  });
});
