import { expect, test } from "vitest";
import usual from "../../catalog/packing-stock/usual.json" with { type: "json" };
import { usualStockMm } from "./usual-stock.ts";

test("the usual stock has every leaf as often as the catalogue says, and names where it comes from", () => {
  const count = (thickness: number) => usualStockMm.filter((leaf) => leaf === thickness).length;
  expect([0.05, 0.1, 0.2, 0.3, 0.5, 1].map(count)).toEqual([8, 8, 8, 8, 8, 4]);
  expect(usualStockMm).toHaveLength(44);
  expect(usual.source).toBe("common practice, no source");
});
