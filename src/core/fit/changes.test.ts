import { describe, expect, it } from "vitest";
import {
  drawTruth,
  plannedTimeline,
  simulateReadings,
  sixChecks,
  workedMachine,
} from "../../../tests/simulation/simulate.ts";
import { playRun, scaleRun, sdOf, timelineOf, valueOfMode } from "../../../tests/simulation/small-timeline.ts";
import { areaPlaces, heightsOverBed } from "../findings/paths.ts";
import { poseAt } from "../machine/joint.ts";
import { tip, valuesOnly } from "../machine/kinematics.ts";
import type { Machine } from "../machine/machine.ts";
import { createRandom } from "../numerics/random.ts";
import { type Estimate, estimateTimeline } from "./estimate.ts";
import { presentScene } from "./present-scene.ts";
import { layOutProblem } from "./problem.ts";
import type { Happening, Timeline } from "./timeline.ts";

const DAY = 86_400_000;
const layouts = ["moving-gantry", "fixed-bridge"] as const;

/** Six checks on a random machine, and what happened the day after. */
function afterwards(machine: Machine, happenings: readonly Happening[], seed = 21): Estimate {
  const blank = layOutProblem(machine, plannedTimeline(machine, sixChecks()));
  const random = createRandom(seed);
  const timeline = simulateReadings(blank, drawTruth(blank, random), random);
  return estimateTimeline(machine, { ...timeline, happenings });
}

const skimmed: Happening = { kind: "skimmed", id: "s", at: DAY };
const packed = (amount: number): Happening => ({
  kind: "moved",
  id: "t",
  at: 2 * DAY,
  adjuster: "rail.right.rear",
  amount,
});

/** Heights over the bed against their mean: how deep a cut is where is left free by a skim. */
function unevenness(estimate: Estimate): number[] {
  const heights = heightsOverBed(presentScene(estimate)).map(({ value }) => value);
  const mean = heights.reduce((sum, h) => sum + h, 0) / heights.length;
  return heights.map((h) => h - mean);
}

describe.each(layouts)("what happens between readings on a %s", (layout) => {
  const machine = workedMachine(layout);

  it("leaves a bed that was just skimmed even under the tip, whatever bed and machine were before", () => {
    for (const seed of [21, 22]) {
      expect(Math.max(...unevenness(afterwards(machine, [], seed)).map(Math.abs))).toBeGreaterThan(0.1);
      expect(Math.max(...unevenness(afterwards(machine, [skimmed], seed)).map(Math.abs))).toBeLessThan(1e-6);
    }
  });

  it("shows packing that came after a skim as what it does to the motion, and packing before it not at all", () => {
    const before = unevenness(afterwards(machine, [{ ...packed(0.4), at: DAY / 2 }, skimmed]));
    expect(Math.max(...before.map(Math.abs))).toBeLessThan(1e-6);
    const later = afterwards(machine, [skimmed, packed(0.4)]);
    const { front, rear } = machine.dimensions.details.packingPlaces;
    const then = Float64Array.from(later.state);
    // The rail lies on its front packing place and is lifted at the rear one.
    then[machine.parameterIndex.get("rail.right.front") as number] -= (0.4 * front) / (front - rear);
    then[machine.parameterIndex.get("rail.right.rear") as number] -= (0.4 * (front - 1)) / (front - rear);
    const { Lx, Ly } = machine.dimensions;
    const heightAt = (state: Float64Array, u: number, v: number) =>
      tip(valuesOnly(machine, state), poseAt(u * Lx, v * Ly, 0)).z.value;
    const risen = areaPlaces.map(([u, v]) => heightAt(later.state, u, v) - heightAt(then, u, v));
    const mean = risen.reduce((sum, h) => sum + h, 0) / risen.length;
    unevenness(later).forEach((uneven, i) => {
      expect(Math.abs(uneven - (risen[i] - mean))).toBeLessThan(0.002);
    });
    expect(Math.max(...risen) - Math.min(...risen)).toBeGreaterThan(0.2);
  });

  it("does not depend on the order in which events arrive, only on when they were", () => {
    const happenings: Happening[] = [
      { kind: "moved", id: "a", at: DAY, adjuster: "slide.side", amount: 2 },
      { kind: "knocked", id: "b", at: DAY + 1, members: ["beam"] },
      skimmed,
      { kind: "homed", id: "h", at: DAY + 2 },
    ];
    const straight = afterwards(machine, happenings);
    const late = afterwards(machine, [...happenings].reverse());
    expect([...late.state]).toEqual([...straight.state]);
    expect([...late.covariance]).toEqual([...straight.covariance]);
  });

  it("doubts rails and bed by half of what is usual after a transport, and nothing else", () => {
    const still = afterwards(machine, []);
    const moved = afterwards(machine, [{ kind: "transported", id: "t", at: DAY }]);
    for (const { id, member, priorSd } of machine.modes) {
      const shaken = member === "rails" || member === "bed" ? priorSd / 2 : 0;
      expect(sdOf(moved, id), id).toBeCloseTo(Math.hypot(sdOf(still, id), shaken), 6);
      expect(valueOfMode(moved, id), id).toBeCloseTo(valueOfMode(still, id), 6);
    }
  });

  it("doubts after a knock all that may have shifted, and what parts were made to only where the part was hit", () => {
    const still = afterwards(machine, []);
    const anywhere = afterwards(machine, [{ kind: "knocked", id: "k", at: DAY, members: [] }]);
    const carriage = afterwards(machine, [{ kind: "knocked", id: "k", at: DAY, members: ["carriage"] }]);
    const asMade = ["scale.x", "scale.y", "scale.z", "grid.scale.x", "grid.scale.y", "grid.skew", "spindle.runout"];
    for (const { id, member, priorSd } of machine.modes) {
      const doubted = (isHit: boolean) => Math.hypot(sdOf(still, id), isHit ? priorSd : 0);
      expect(sdOf(anywhere, id), id).toBeCloseTo(doubted(!asMade.includes(id)), 6);
      expect(sdOf(carriage, id), id).toBeCloseTo(doubted(member === "carriage"), 6);
    }
  });

  it("lets taking up play end what was doubted of it just before", () => {
    const events: Happening[] = [
      { kind: "knocked", id: "a", at: DAY, members: [] },
      { kind: "moved", id: "b", at: DAY + 1, adjuster: "play.x", amount: 1 },
    ];
    const taken = estimateTimeline(machine, timelineOf(machine, [playRun(0, 0.5)], events));
    expect(valueOfMode(taken, "backlash.x")).toBeCloseTo(0.03, 9);
    expect(sdOf(taken, "backlash.x")).toBeCloseTo(0.015, 9);
  });

  it("adds what packing a corner leaves to chance to a bed that was skimmed just before", () => {
    const packing: Happening = { kind: "moved", id: "b", at: DAY + 1, adjuster: "bed.rear.right", amount: 0.3 };
    const now = afterwards(machine, [skimmed, packing]);
    const { Lx, Ly, details } = machine.dimensions;
    const share =
      (Lx * Ly) / (4 * (details.bedMm.right - details.bedMm.left) * (details.bedMm.rear - details.bedMm.front));
    expect(valueOfMode(now, "bed.twist")).toBeCloseTo(0.3 * share, 6);
    expect(sdOf(now, "bed.twist")).toBeCloseTo(Math.hypot(0.02, 0.05 * share), 6);
  });

  it("knows a scale after a change of steps exactly as well as before it", () => {
    const before = estimateTimeline(machine, timelineOf(machine, [scaleRun(0, 2)]));
    const moved: Happening = { kind: "moved", id: "m", at: DAY, adjuster: "steps.x", amount: -2 };
    const now = estimateTimeline(machine, timelineOf(machine, [scaleRun(0, 2)], [moved]));
    expect(valueOfMode(now, "scale.x")).toBeCloseTo(valueOfMode(before, "scale.x") - 2, 6);
    expect(sdOf(now, "scale.x")).toBeCloseTo(sdOf(before, "scale.x"), 6);
  });

  it("reads a run in the unit that it was taken in, once it is said so", () => {
    const inches = (timeline: Timeline): Timeline => ({
      ...timeline,
      runs: timeline.runs.map((run) => ({ ...run, factor: 25.4 })),
    });
    const right = estimateTimeline(machine, timelineOf(machine, [playRun(0, 0.127)]));
    const wrong = timelineOf(machine, [playRun(0, 0.005)]);
    expect(valueOfMode(estimateTimeline(machine, wrong), "backlash.x")).toBeLessThan(0.02);
    const corrected = estimateTimeline(machine, inches(wrong));
    expect(valueOfMode(corrected, "backlash.x")).toBeCloseTo(valueOfMode(right, "backlash.x"), 9);
    expect(sdOf(corrected, "backlash.x")).toBeCloseTo(sdOf(right, "backlash.x"), 9);
    // Leaves are then as far apart as they really are.
    const leaves = (goes: number, doesNotGo: number): Timeline => ({
      ...wrong,
      readings: wrong.readings.map((reading) => ({ ...reading, entries: [{ form: "interval", goes, doesNotGo }] })),
    });
    const felt = estimateTimeline(machine, inches(leaves(0.004, 0.006)));
    const feltInMm = estimateTimeline(machine, leaves(0.1016, 0.1524));
    expect(sdOf(felt, "backlash.x")).toBeCloseTo(sdOf(feltInMm, "backlash.x"), 9);
  });

  it("takes a restored reading as if it had never been withdrawn", () => {
    const timeline = timelineOf(machine, [playRun(0, 0.12), playRun(DAY, 0.3)]);
    const asWithdrawn = (withdrawn: string | null): Timeline => ({
      ...timeline,
      readings: timeline.readings.map((reading) => (reading.run === "run 1" ? { ...reading, withdrawn } : reading)),
    });
    const whole = estimateTimeline(machine, timeline);
    expect(valueOfMode(estimateTimeline(machine, asWithdrawn("slip")), "backlash.x")).not.toBeCloseTo(
      valueOfMode(whole, "backlash.x"),
      2,
    );
    expect([...estimateTimeline(machine, asWithdrawn(null)).state]).toEqual([...whole.state]);
  });

  it("keeps the shape of a spot of the bed over repeats and runs, and forgets it with a skim", () => {
    const touch = (at: number, height: number) => ({
      check: "bed-touch",
      at,
      instrument: "touch plate",
      readings: [
        ["x=300 y=250", height],
        ["x=100 y=100", 0],
      ] as const,
    });
    const placesOf = (timeline: Timeline) =>
      layOutProblem(machine, timeline).variables.filter(({ kind }) => kind === "place").length;
    // Two runs at the same two spots share their shape; a third only repeats it.
    expect(placesOf(timelineOf(machine, [touch(0, 0.1)]))).toBe(0);
    expect(placesOf(timelineOf(machine, [touch(0, 0.1), touch(1000, 0.1)]))).toBe(2);
    expect(placesOf(timelineOf(machine, [touch(0, 0.1), touch(1000, 0.1), touch(2000, 0.1)]))).toBe(2);
    const skim: Happening = { kind: "skimmed", id: "s", at: DAY };
    expect(placesOf(timelineOf(machine, [touch(0, 0.1), touch(2 * DAY, 0.1)], [skim]))).toBe(0);
    // Read a hundred times, a tilt is no better known than the shape of two spots allows.
    const often = Array.from({ length: 100 }, (_, i) => touch(i * 1000, 0.1));
    const known = estimateTimeline(machine, timelineOf(machine, often));
    const g = known.problem.variables.map(({ kind }) => kind === "place");
    expect(g.filter(Boolean)).toHaveLength(2);
    known.problem.variables.forEach(({ kind, usualSd }, i) => {
      if (kind !== "place") return;
      const stage = known.covariances[0];
      const at = stage.variables.indexOf(i);
      expect(Math.sqrt(stage.matrix[at * stage.variables.length + at])).toBeGreaterThan(0.9 * usualSd);
    });
  });
});

describe("homings on a moving gantry", () => {
  const machine = workedMachine("moving-gantry");
  const rectangle = (seed: number, timesHomed: number) => {
    const runs = [0, 1].map((i) => ({ check: "hole-rectangle", atMs: i * DAY }));
    const planned = plannedTimeline(machine, runs);
    const homed: Happening[] = timesHomed > 0 ? [{ kind: "homed", id: "h", at: DAY / 2 }] : [];
    const blank = layOutProblem(machine, { ...planned, happenings: homed });
    const random = createRandom(seed);
    return estimateTimeline(machine, simulateReadings(blank, drawTruth(blank, random), random));
  };

  it("draw the yaw anew: two readings under one homing share it, two under two do not", () => {
    const home = machine.parameterIndex.get("gantry.rack.home") as number;
    const one = rectangle(3, 0);
    const two = rectangle(3, 1);
    const h = one.problem.homingSd;
    expect(sdOf(one, "gantry.rack")).toBeGreaterThan(0.95 * h);
    // Half of what a homing leaves to chance averages out over two; what the calipers have for good does not.
    const gone = sdOf(one, "gantry.rack") ** 2 - sdOf(two, "gantry.rack") ** 2;
    expect(gone / (h ** 2 / 2)).toBeCloseTo(1, 1);
    expect(one.problem.variables.filter(({ kind }) => kind === "homing")).toHaveLength(1);
    expect(two.problem.variables.filter(({ kind }) => kind === "homing")).toHaveLength(2);
    expect(two.problem.present[home]).toBeGreaterThanOrEqual(0);
  });

  it("leave the yaw as open as usual after one more homing, and what lasts as known as before", () => {
    const blank = rectangle(3, 0);
    const again = estimateTimeline(machine, {
      ...blank.problem.timeline,
      happenings: [{ kind: "powered-on", id: "p", at: 2 * DAY }],
    });
    expect(sdOf(again, "gantry.rack.home")).toBeCloseTo(blank.problem.homingSd, 9);
    expect(sdOf(again, "gantry.rack")).toBeCloseTo(sdOf(blank, "gantry.rack"), 6);
  });
});
