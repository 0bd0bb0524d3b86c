import { expect, it } from "vitest";
import type { Entry } from "./entry.ts";
import { entriesByName, entriesInWords, writtenAlike } from "./entry-words.ts";

const gap = (goes: number, doesNotGo: number): Entry => ({ form: "interval", goes, doesNotGo });

it("writes the numbers of a list with as many decimals each, as many as the finest has", () => {
  const entries = [gap(0.4, 0.45), gap(0.35, 0.4)];
  const written = writtenAlike(entries);
  expect(entries.map((entry) => entriesInWords([entry], written))).toEqual(["0.40 / 0.45", "0.35 / 0.40"]);
  expect(entriesByName([gap(0.4, 0.45)], {}, written)).toBe("0.40 to 0.45");
});

it("leaves whole numbers whole and yes and no as they are", () => {
  const entries: readonly Entry[] = [
    { form: "value", value: 61 },
    { form: "verdict", passed: true },
  ];
  const written = writtenAlike(entries);
  expect(entries.map((entry) => entriesInWords([entry], written))).toEqual(["61", "yes"]);
  expect(
    writtenAlike([
      { form: "value", value: -0.5 },
      { form: "value", value: 0.1234 },
    ])(-0.5),
  ).toBe("−0.5000");
});
