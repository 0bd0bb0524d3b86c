import { expect, test } from "vitest";
import { loadSolver } from "./highs.ts";

const solve = await loadSolver();

test("finds the best of a small choice, whole where it has to be", () => {
  // Two goods of 5 and 4.5, weights 3 and 2, room for 7: two of the first weigh 6, one of the first and two of the second 7.
  const solution = solve(
    {
      columns: [
        { name: "first", cost: -5, from: 0, to: 10, whole: true },
        { name: "second", cost: -4.5, from: 0, to: 1, whole: true },
        { name: "water", cost: -1, from: 0, to: Number.POSITIVE_INFINITY, whole: false },
      ],
      rows: [{ columns: [0, 1, 2], coefficients: [3, 2, 1], from: Number.NEGATIVE_INFINITY, to: 7 }],
    },
    1000,
  );
  expect([...(solution.values as Float64Array)]).toEqual([1, 1, 2]);
  expect(solution.objective).toBeCloseTo(-11.5, 9);
  expect(solution.proven).toBe(true);
});

test("says when there is nothing feasible", () => {
  const solution = solve(
    {
      columns: [{ name: "x", cost: 1, from: 0, to: 1, whole: true }],
      rows: [{ columns: [0], coefficients: [1], from: 2, to: 3 }],
    },
    1000,
  );
  expect(solution.values).toBeNull();
});
