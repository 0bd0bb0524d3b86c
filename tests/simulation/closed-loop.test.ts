import { expect, test } from "vitest";
import { loadSolver } from "../../src/solver/highs.ts";
import { closedLoop, wilsonInterval } from "./closed-loop.ts";

// Ten machines a layout: what breaks the loop as a whole. Shares with their bars are for `npm run closed-loop`.
test.each(["moving-gantry", "fixed-bridge"] as const)(
  "brings random machines of the layout %s in, or near, in three rounds",
  async (layout) => {
    const solve = await loadSolver();
    const results = Array.from({ length: 10 }, (_, i) => closedLoop(layout, 3_000_000 + i, solve));
    const cured = results.filter(({ after }) => after <= 1).length;
    // At a true share of three quarters fewer than four of ten come once in 300 times.
    expect(cured).toBeGreaterThanOrEqual(4);
    for (const { before, after } of results) expect(after).toBeLessThan(Math.max(2, 0.5 * before));
  },
);

test("puts a share between the limits that the interval's own formula gives", () => {
  // Independent: the roots of (p − k/n)² = z²·p(1 − p)/n, for 81 of 263.
  const [low, high] = wilsonInterval(81, 263);
  for (const p of [low, high]) expect((p - 81 / 263) ** 2).toBeCloseTo((1.959964 ** 2 * p * (1 - p)) / 263, 9);
});
