import { expect, test } from "vitest";
import { killRounds } from "../../scripts/kill-store.ts";
import { createRandom } from "../../src/core/numerics/random.ts";

// More with KILTER_KILLS=100. The moments differ from run to run with the machine, whatever the seed.
const random = createRandom(20260314);
const kills = Number(process.env.KILTER_KILLS ?? 20);

test(`killed ${kills} times while it adds, a store has every event that it said it had, once, and is sound`, async () => {
  const report = await killRounds(kills, () => random.uniform());
  expect(report.faults).toEqual([]);
  expect(report.kills).toBe(kills);
  // Most kills must come while it adds, or the test says little.
  expect(report.acknowledged).toBeGreaterThan(kills * 3);
  // Of each kill at most the one batch that was on its way.
  expect(report.unacknowledged).toBeLessThanOrEqual(kills * 25);
});
