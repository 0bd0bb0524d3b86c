import { describe, expect, it } from "vitest";
import { drawTruth, plannedTimeline, simulateReadings, workedMachine } from "../../../tests/simulation/simulate.ts";
import { createRandom } from "../numerics/random.ts";
import { estimateProblem, estimateTimeline } from "./estimate.ts";
import { type Innovation, innovationOf, standingOf } from "./preview.ts";
import { layOutProblem } from "./problem.ts";

/** Over many machines, each homed afresh for every reading: what is told about a reading errs by as much as it says. */
it("tells how far a reading is from the rest by a measure whose square is 1 on average, homings of its own included", () => {
  const machine = workedMachine("moving-gantry");
  const blank = layOutProblem(machine, plannedTimeline(machine, [{ check: "stop-gaps" }, { check: "rail-spacing" }]));
  let squares = 0;
  const machines = 300;
  for (let seed = 1; seed <= machines; seed++) {
    const random = createRandom(seed);
    const timeline = simulateReadings(blank, drawTruth(blank, random), random);
    const last = timeline.readings.filter(({ run }) => run === "run 0").at(-1);
    if (!last) throw new Error("the stops were not read");
    const before = estimateTimeline(machine, {
      ...timeline,
      readings: timeline.readings.filter((reading) => reading !== last),
    });
    squares += (innovationOf(before, timeline, last)?.normalised ?? 0) ** 2;
  }
  // A mean of 300 squares scatters by √(2/300) = 0.08.
  expect(squares / machines).toBeGreaterThan(0.75);
  expect(squares / machines).toBeLessThan(1.25);
});

it("previews on what is linear exactly what the converged fit then changes", () => {
  const machine = workedMachine("fixed-bridge");
  const blank = layOutProblem(
    machine,
    plannedTimeline(machine, [{ check: "turnaround", options: { axis: "X" } }, { check: "runout" }]),
  );
  const random = createRandom(4);
  const timeline = simulateReadings(blank, drawTruth(blank, random), random);
  const last = timeline.readings[timeline.readings.length - 1];
  const before = estimateTimeline(machine, { ...timeline, readings: timeline.readings.slice(0, -1) });
  const innovation = innovationOf(before, timeline, last);
  const problem = layOutProblem(machine, timeline);
  const after = estimateProblem(problem);
  const place = new Map(problem.variables.map(({ id }, i) => [id, i]));
  before.problem.variables.forEach(({ id, usualSd }, i) => {
    const changed = after.values[place.get(id) as number] - before.values[i];
    expect(Math.abs((innovation?.change[i] ?? 0) - changed), id).toBeLessThan(1e-6 * usualSd);
  });
});

describe("what a reading that is not far off says for itself", () => {
  const read = (away: number, predictedSd: number, own: number) =>
    standingOf({ away, predictedSd, normalised: away / Math.hypot(predictedSd, own) } as Innovation);

  it("is that it was expected there only as near as its own scatter", () => {
    expect(read(0.05, 0.5, 0.03)).toBe("near");
    expect(read(0, 0.5, 0.03)).toBe("near");
    expect(read(0.1, 0.06, 0.03)).toBe("near");
    expect(read(0.5, 0.5, 0.03)).toBe("open");
    expect(read(1.2, 0.5, 0.03)).toBe("edge");
    expect(read(-1.2, 0.5, 0.03)).toBe("edge");
  });
});
