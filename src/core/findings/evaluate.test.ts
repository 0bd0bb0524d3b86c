import { expect, it } from "vitest";
import { plannedTimeline, workedMachine } from "../../../tests/simulation/simulate.ts";
import { playRun, timelineOf } from "../../../tests/simulation/small-timeline.ts";
import { estimateTimeline } from "../fit/estimate.ts";
import { findings } from "./catalogue.ts";
import { evaluateFindings } from "./evaluate.ts";

it.each(["moving-gantry", "fixed-bridge"] as const)("gives no verdict on a %s that nobody has read", (layout) => {
  const machine = workedMachine(layout);
  const limits = { own: new Map(findings.map(({ id }) => [id, 0.01])), usual: new Map<string, number>() };
  const results = evaluateFindings(estimateTimeline(machine, plannedTimeline(machine, [])), limits, {
    passed: true,
    checks: [],
  });
  for (const { verdict, finding } of results) expect(verdict, finding.id).toBe("not known yet");
});

it.each([0.12, 0.01, 0, -0.02, -0.3, -3])("never finds play below nothing, whatever is read: %d", (read) => {
  const machine = workedMachine("moving-gantry");
  const limits = { own: new Map([["lost-motion.x", 0.05]]), usual: new Map<string, number>() };
  const estimate = estimateTimeline(machine, timelineOf(machine, [playRun(0, read)]));
  const results = evaluateFindings(estimate, limits, { passed: true, checks: [] });
  for (const result of results.filter(({ finding }) => finding.form === "linear" && finding.neverNegative)) {
    expect(result.value, result.finding.id).toBeGreaterThanOrEqual(0);
    expect(result.low, result.finding.id).toBeGreaterThanOrEqual(0);
    expect(result.low).toBeLessThanOrEqual(result.value);
    expect(result.value).toBeLessThanOrEqual(result.high);
  }
  const play = results.find(({ finding }) => finding.id === "lost-motion.x");
  expect(play?.verdict).toBe(read > 0.05 ? "out" : "within");
  expect(Number.isFinite(play?.high)).toBe(true);
});
