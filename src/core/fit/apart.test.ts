import { describe, expect, it } from "vitest";
import {
  drawTruth,
  plannedTimeline,
  simulateReadings,
  sixChecks,
  workedMachine,
} from "../../../tests/simulation/simulate.ts";
import { squareness } from "../findings/squareness.ts";
import { createRandom } from "../numerics/random.ts";
import { causesOf, confusedWith, untouchedDirections } from "./apart.ts";
import { estimateTimeline } from "./estimate.ts";
import { gradientOverVariables, presentScene } from "./present-scene.ts";
import { layOutProblem } from "./problem.ts";

function estimateOf(layout: "moving-gantry" | "fixed-bridge", plan: ReturnType<typeof sixChecks>) {
  const machine = workedMachine(layout);
  const blank = layOutProblem(machine, plannedTimeline(machine, plan));
  const random = createRandom(7);
  return estimateTimeline(machine, simulateReadings(blank, drawTruth(blank, random), random));
}

describe.each(["moving-gantry", "fixed-bridge"] as const)("what is not told apart on a %s", (layout) => {
  it("leaves modes that no check of the plan touches as untouched directions", () => {
    const directions = untouchedDirections(estimateOf(layout, sixChecks()));
    const named = directions.flatMap(({ parts }) => parts.map(({ mode }) => mode));
    for (const mode of ["rail.toe", "rail.belly", "grid.yaw"]) expect(named).toContain(mode);
    for (const { share } of directions) expect(share).toBeGreaterThan(0.98);
  });

  it("never can tell the beam's seat from the rails under it, though their sum is well known", () => {
    const estimate = estimateOf(layout, sixChecks());
    const sd = (mode: string) => {
      const i = estimate.problem.machine.parameterIndex.get(mode) as number;
      const prior = estimate.problem.machine.modes[i].priorSd;
      return Math.sqrt(estimate.covariance[i * estimate.problem.machine.parameters.length + i]) / prior;
    };
    expect(sd("beam.right")).toBeGreaterThan(0.6);
  });

  it("confuses squareness with play when all that is known is one disc", () => {
    const estimate = estimateOf(layout, [{ check: "ring-diameters", objects: { cutter: "cutter" } }]);
    const { gradient } = squareness.evaluate(presentScene(estimate));
    const confused = confusedWith(estimate, gradientOverVariables(estimate, gradient)).map(({ variable }) => variable);
    expect(confused.some((variable) => variable.startsWith("backlash"))).toBe(true);
    expect(causesOf(estimate, gradient)[0].mode).toBe(layout === "moving-gantry" ? "gantry.rack" : "bridge.yaw");
  });

  it("names what squareness is confused with once, though it was read at two times", () => {
    const disc = { check: "ring-diameters", objects: { cutter: "cutter" } };
    const estimate = estimateOf(layout, [disc, { ...disc, atMs: 30 * 86_400_000 }]);
    expect(estimate.problem.epochs).toHaveLength(2);
    const { gradient } = squareness.evaluate(presentScene(estimate));
    const words = confusedWith(estimate, gradientOverVariables(estimate, gradient)).map((one) => one.words);
    expect(words.some((word) => word.startsWith("play of"))).toBe(true);
    expect(new Set(words).size).toBe(words.length);
  });
});
