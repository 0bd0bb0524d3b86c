import { expect, it } from "vitest";
import { plannedTimeline, workedMachine } from "../../../tests/simulation/simulate.ts";
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
