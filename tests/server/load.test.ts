import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { killServers } from "../../bench/server-kill.ts";
import { runLoad } from "../../bench/server-load.ts";

const { server: budget } = JSON.parse(readFileSync(new URL("../../bench/budgets.json", import.meta.url), "utf8"));

it("fifty devices hear what twenty of them write, each event once, and hardly later than its writer knows that it is kept", async () => {
  const result = await runLoad({ devices: 50, writers: 20, seconds: 4, pauseMs: budget.pauseMs, seed: 4170 });
  expect(result.events).toBeGreaterThan(100);
  expect(result).toMatchObject({ lost: 0, double: 0, unknown: 0 });
  // Tests share the computer with others, so one time is held against another; the bench holds both to the budget.
  expect(result.heardP99Ms).toBeLessThan(budget.mostMs + 4 * result.acknowledgedP99Ms);
  expect(result.megabytes).toBeLessThan(budget.mostMegabytes);
});

it("a server that is killed ten times at random moments has everything it acknowledged, and nothing twice", async () => {
  const result = await killServers(10, 4170);
  expect(result.acknowledged).toBeGreaterThan(100);
  expect(result.sentAgain).toBeGreaterThan(10);
  expect(result).toMatchObject({ lost: 0, double: 0, unknown: 0 });
});
