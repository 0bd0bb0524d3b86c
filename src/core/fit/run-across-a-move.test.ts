import { describe, expect, it } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { sdOf, timelineOf, valueOfMode } from "../../../tests/simulation/small-timeline.ts";
import { estimateTimeline } from "./estimate.ts";
import { innovationOf } from "./preview.ts";
import type { Happening, Timeline } from "./timeline.ts";

const stations = ["front left", "front right", "rear left", "rear right"] as const;

describe.each(["moving-gantry", "fixed-bridge"] as const)("a run that goes on after a move, on a %s", (layout) => {
  const machine = workedMachine(layout);
  const moved: Happening = { kind: "moved", id: "m", at: 500, adjuster: "beam.right", amount: 0.3 };
  const before = {
    check: "gap-under-beam",
    instrument: "dial",
    at: 0,
    readings: stations.map((s) => [s, 0.5] as const),
  };
  /** One gap more at the front right, in the run before the move or in one of its own. */
  const readAfter = (gap: number, goesOn: boolean): Timeline => {
    const after = { check: "gap-under-beam", instrument: "dial", at: 1000, readings: [["front right", gap] as const] };
    const timeline = timelineOf(machine, [before, after], [moved]);
    if (!goesOn) return timeline;
    const readings = timeline.readings.map((reading) => ({ ...reading, run: "run 0" }));
    return { ...timeline, runs: timeline.runs.slice(0, 1), readings };
  };
  const unread = estimateTimeline(machine, timelineOf(machine, [before], [moved]));
  // The block stands between the beam's ends, 0.9 of the travel from the left.
  const { Lx, xL, W } = machine.dimensions;
  const expected = 0.5 + (0.3 * (0.9 * Lx - xL)) / W;

  it("knows the block from before, so that one gap tells how far the beam went", () => {
    const goingOn = estimateTimeline(machine, readAfter(expected + 0.05, true));
    const anew = estimateTimeline(machine, readAfter(expected + 0.05, false));
    expect(goingOn.converged).toBe(true);
    expect(goingOn.problem.epochs).toHaveLength(2);
    const risen = (estimate: typeof unread) => valueOfMode(estimate, "beam.right") - valueOfMode(unread, "beam.right");
    expect(risen(goingOn)).toBeGreaterThan(0.02);
    expect(Math.abs(risen(anew))).toBeLessThan(1e-3);
    expect(sdOf(anew, "beam.right")).toBeCloseTo(sdOf(unread, "beam.right"), 3);
    expect(sdOf(goingOn, "beam.right")).toBeLessThan(sdOf(anew, "beam.right"));
  });

  it("shares one height of the block over both sides of the move", () => {
    const { problem } = estimateTimeline(machine, readAfter(expected, true));
    expect(problem.variables.filter(({ id }) => id.endsWith(": block")).map(({ id }) => id)).toEqual([
      "run run 0: block",
    ]);
    expect(problem.observations.filter(({ epoch }) => epoch === 1)).toHaveLength(1);
  });

  it("tells at once how a reading sits with what the move should have done", () => {
    const sits = (gap: number) => {
      const timeline = readAfter(gap, true);
      return innovationOf(unread, timeline, timeline.readings.at(-1)!)!;
    };
    expect(sits(expected).fits).toBe("fits");
    expect(Math.abs(sits(expected).away)).toBeLessThan(0.005);
    expect(sits(0.5).fits).toBe("far");
    expect(sits(0.5).away).toBeLessThan(-0.2);
  });
});
