import usual from "../../catalog/packing-stock/usual.json" with { type: "json" };

/** Leaves that a plan takes where nobody has listed theirs: each thickness as often as there are leaves of it, mm. */
export const usualStockMm: readonly number[] = usual.leaves.flatMap(({ thicknessMm, count }) =>
  Array.from({ length: count }, () => thicknessMm),
);
