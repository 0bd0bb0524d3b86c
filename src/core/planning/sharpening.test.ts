import { describe, expect, it } from "vitest";
import { plannedTimeline, workedMachine } from "../../../tests/simulation/simulate.ts";
import { findings } from "../findings/catalogue.ts";
import { estimateTimeline } from "../fit/estimate.ts";
import { gradientOverVariables, presentScene } from "../fit/present-scene.ts";
import { quadraticForm } from "../numerics/symmetric.ts";
import { possibleRuns } from "./possible-runs.ts";
import { sharpeningRuns } from "./sharpening.ts";

describe.each(["moving-gantry", "fixed-bridge"] as const)("what sharpens a finding on a %s", (layout) => {
  const machine = workedMachine(layout);
  const gap = { check: "gap-under-beam" };
  const timeline = plannedTimeline(machine, [gap]);
  const estimate = estimateTimeline(machine, timeline);
  const { own } = possibleRuns(machine, timeline);
  const gradientOf = (id: string, at = estimate) => {
    const finding = findings.find((one) => one.id === id);
    if (finding?.form !== "linear") throw new Error(id);
    return finding.evaluate(presentScene(at)).gradient;
  };
  const sdAt = (id: string, at: typeof estimate) => Math.sqrt(quadraticForm(at.covariance, gradientOf(id, at)));

  it.each(["over-bed.x", "lost-motion.x", "scale.y"])("%s is among the possible runs, the sharpest first", (id) => {
    const found = sharpeningRuns(estimate, gradientOverVariables(estimate, gradientOf(id)), own);
    expect(found.length).toBeGreaterThan(0);
    for (const { run, leaves } of found) {
      expect(own).toContain(run);
      expect(leaves).toBeLessThan(0.9);
    }
    expect(found.map(({ leaves }) => leaves)).toEqual(found.map(({ leaves }) => leaves).sort((a, b) => a - b));
  });

  it("leaves what the fit leaves when the run has been taken", () => {
    const [{ run, leaves }] = sharpeningRuns(
      estimate,
      gradientOverVariables(estimate, gradientOf("lost-motion.x")),
      own.filter(({ check }) => check.id === "turnaround"),
    );
    const options = run.setup.options as Readonly<Record<string, string>>;
    const after = estimateTimeline(machine, plannedTimeline(machine, [gap, { check: run.check.id, options }]));
    const ratio = sdAt("lost-motion.x", after) / sdAt("lost-motion.x", estimate);
    // The instrument of the planned run need not be the one that reads best.
    expect(leaves).toBeGreaterThan(0.3 * ratio);
    expect(leaves).toBeLessThan(3 * ratio);
  });

  it("is nothing where nothing can be told of it", () => {
    expect(sharpeningRuns(estimate, new Float64Array(estimate.problem.variables.length), own)).toEqual([]);
    expect(sharpeningRuns(estimate, gradientOverVariables(estimate, gradientOf("scale.y")), [])).toEqual([]);
  });
});
