import { expect, test } from "vitest";
import { nearestWord } from "./nearest-word.ts";

const known = ["value", "goes", "doesNotGo", "reading-taken", "reading-withdrawn", "x", "unit"];

test.each([
  ["vaule", "value"],
  ["Value", "value"],
  ["doesnotgo", "doesNotGo"],
  ["doesntGo", "doesNotGo"],
  ["reading-take", "reading-taken"],
  ["units", "unit"],
  ["temperature", null],
  ["y", null],
  ["", null],
  ["v".repeat(1000), null],
])("“%s” may be meant as %s", (word, meant) => {
  expect(nearestWord(word, known)).toBe(meant);
});

test("nothing is meant where nothing is known", () => {
  expect(nearestWord("value", [])).toBeNull();
});
