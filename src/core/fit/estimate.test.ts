import { describe, expect, it } from "vitest";
import {
  drawTruth,
  plannedTimeline,
  simulateReadings,
  sixChecks,
  workedMachine,
} from "../../../tests/simulation/simulate.ts";
import { playRun, scaleRun, sdOf, timelineOf, valueOfMode } from "../../../tests/simulation/small-timeline.ts";
import { checkById } from "../checks/catalogue.ts";
import type { GeometricCheck } from "../checks/check.ts";
import { covarianceTimes, eliminate } from "../estimation/elimination.ts";
import type { Machine } from "../machine/machine.ts";
import { triangularise } from "../numerics/householder.ts";
import { createRandom } from "../numerics/random.ts";
import { covarianceFromTriangle } from "../numerics/triangular.ts";
import { estimateTimeline } from "./estimate.ts";
import { innovationOf } from "./preview.ts";
import { layOutProblem } from "./problem.ts";
import { sharesOfInformation } from "./shares.ts";
import type { Happening, Timeline } from "./timeline.ts";

const DAY = 86_400_000;
const layouts = ["moving-gantry", "fixed-bridge"] as const;

function simulated(machine: Machine, seed: number): Timeline {
  const blank = layOutProblem(machine, plannedTimeline(machine, sixChecks()));
  const random = createRandom(seed);
  return simulateReadings(blank, drawTruth(blank, random), random);
}

describe.each(layouts)("the estimate on a %s", (layout) => {
  const machine = workedMachine(layout);

  it("does not depend on the order of readings or of their arrival, to a millionth of a standard deviation", () => {
    const timeline = simulated(machine, 3);
    const straight = estimateTimeline(machine, timeline);
    const shuffled = estimateTimeline(machine, {
      ...timeline,
      readings: [...timeline.readings].sort((a, b) =>
        a.id.split("").reverse().join("") < b.id.split("").reverse().join("") ? -1 : 1,
      ),
      runs: [...timeline.runs].reverse(),
    });
    machine.modes.forEach(({ id }) => {
      expect(Math.abs(valueOfMode(straight, id) - valueOfMode(shuffled, id))).toBeLessThan(2e-6 * sdOf(straight, id));
    });
  });

  it("is the same from where the last one ended as from nothing, to a millionth of a standard deviation, and sooner", () => {
    const timeline = simulated(machine, 5);
    for (const short of [1, 5, 20]) {
      const before = estimateTimeline(machine, { ...timeline, readings: timeline.readings.slice(0, -short) });
      const afresh = estimateTimeline(machine, timeline);
      const goneOn = estimateTimeline(machine, timeline, before);
      expect(goneOn.converged).toBe(true);
      expect(goneOn.iterations).toBeLessThanOrEqual(afresh.iterations);
      machine.modes.forEach(({ id }) => {
        const sd = sdOf(afresh, id);
        expect(Math.abs(valueOfMode(goneOn, id) - valueOfMode(afresh, id))).toBeLessThan(2e-6 * sd);
        expect(Math.abs(sdOf(goneOn, id) - sd)).toBeLessThan(1e-5 * sd);
      });
    }
  });

  it("has a covariance that is symmetric and positive", () => {
    const { covariance } = estimateTimeline(machine, simulated(machine, 4));
    const n = machine.parameters.length;
    const random = createRandom(9);
    for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) expect(covariance[i * n + j]).toBe(covariance[j * n + i]);
    for (let trial = 0; trial < 50; trial++) {
      const g = Float64Array.from({ length: n }, () => random.normal());
      let sum = 0;
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) sum += g[i] * covariance[i * n + j] * g[j];
      expect(sum).toBeGreaterThan(0);
    }
  });

  it("never raises a variance by one more reading where the Jacobians are held", () => {
    const { problem, rows, factor } = estimateTimeline(machine, simulated(machine, 5));
    const random = createRandom(8);
    const readings = rows.flat().filter(({ observation }) => observation >= 0);
    const varianceIn = (of: typeof factor, column: number) =>
      covarianceTimes(
        of,
        Float64Array.from(problem.variables, (_, i) => (i === column ? 1 : 0)),
      )[column];
    for (let trial = 0; trial < 12; trial++) {
      const left = random.pick(readings);
      const stages = rows.map((stage) => stage.filter((row) => row !== left));
      const without = eliminate({ variables: problem.variables.length, stages, keepToEnd: [] });
      problem.variables.forEach(({ id }, column) => {
        const before = varianceIn(without, column);
        expect(varianceIn(factor, column), id).toBeLessThanOrEqual(before * (1 + 1e-9));
      });
    }
  });

  it("over several epochs is the stacked least squares of all its rows", () => {
    const knock: Happening = { kind: "knocked", id: "k", at: 5 * DAY, members: ["carriage"] };
    const timeline = timelineOf(
      machine,
      [playRun(0), scaleRun(2 * DAY, 1), playRun(6 * DAY, 0.2), scaleRun(40 * DAY, 1.5)],
      [knock],
    );
    const estimate = estimateTimeline(machine, timeline);
    expect(estimate.rows.length).toBe(3);
    const rows = estimate.rows.flat();
    const n = estimate.values.length;
    const a = new Float64Array(rows.length * n);
    rows.forEach(({ columns, coefficients }, r) => {
      for (let j = 0; j < columns.length; j++) a[r * n + columns[j]] += coefficients[j];
    });
    triangularise(a, rows.length, n, n);
    const p = covarianceFromTriangle(a, n, n);
    machine.modes.forEach(({ id }, mode) => {
      const column = estimate.problem.present[mode];
      expect(sdOf(estimate, id)).toBeCloseTo(Math.sqrt(p[column * n + column]), 9);
    });
    // At the solution the gradient is nothing: Aᵀ r = 0.
    const gradient = new Float64Array(n);
    for (const { columns, coefficients, rightSide } of rows)
      for (let j = 0; j < columns.length; j++) gradient[columns[j]] += coefficients[j] * rightSide;
    for (let i = 0; i < n; i++) expect(Math.abs(gradient[i]) * Math.sqrt(p[i * n + i])).toBeLessThan(1e-5);
  });

  it("puts a late reading where it was taken: the same as if it had come in time", () => {
    const inTime = timelineOf(machine, [playRun(0), scaleRun(2 * DAY, 1), playRun(20 * DAY)]);
    const late = { ...inTime, readings: [...inTime.readings.slice(3), ...inTime.readings.slice(0, 3)] };
    expect([...estimateTimeline(machine, late).state]).toEqual([...estimateTimeline(machine, inTime).state]);
  });

  it("moves a mode by what an adjuster was moved, without doubt where there is none", () => {
    const before = estimateTimeline(machine, timelineOf(machine, [scaleRun(0, 2)]));
    const moved: Happening = { kind: "moved", id: "m", at: DAY, adjuster: "steps.x", amount: -2 };
    const after = estimateTimeline(machine, timelineOf(machine, [scaleRun(0, 2), playRun(2 * DAY)], [moved]));
    expect(valueOfMode(after, "scale.x")).toBeCloseTo(valueOfMode(before, "scale.x") - 2, 3);
    expect(sdOf(after, "scale.x")).toBeCloseTo(sdOf(before, "scale.x"), 3);
  });

  it("adds an adjuster's scatter, and frees what else the joint holds", () => {
    const moved: Happening = { kind: "moved", id: "m", at: DAY, adjuster: "slide.side", amount: 1 };
    const plain = estimateTimeline(machine, timelineOf(machine, [playRun(0), playRun(2 * DAY)]));
    const after = estimateTimeline(machine, timelineOf(machine, [playRun(0), playRun(2 * DAY)], [moved]));
    expect(valueOfMode(after, "slide.lean.side") - valueOfMode(plain, "slide.lean.side")).toBeCloseTo(1, 6);
    expect(sdOf(after, "slide.lean.side")).toBeCloseTo(Math.hypot(sdOf(plain, "slide.lean.side"), 0.15), 6);
    expect(sdOf(after, "slide.lean.fore")).toBeCloseTo(Math.hypot(sdOf(plain, "slide.lean.fore"), 0.1), 6);
  });

  it("replaces play by what taking it up leaves, whatever it was", () => {
    const taken: Happening = { kind: "moved", id: "m", at: DAY, adjuster: "play.x", amount: 1 };
    const after = estimateTimeline(machine, timelineOf(machine, [playRun(0, 0.5), scaleRun(2 * DAY, 0)], [taken]));
    expect(valueOfMode(after, "backlash.x")).toBeCloseTo(0.03, 3);
    expect(sdOf(after, "backlash.x")).toBeCloseTo(0.015, 4);
  });

  it("doubts a knocked member as if it were newly built on top, and asks a new part afresh", () => {
    const known = estimateTimeline(machine, timelineOf(machine, [playRun(0), scaleRun(2 * DAY, 0)]));
    const prior = machine.modes.find(({ id }) => id === "backlash.x");
    const knock: Happening = { kind: "knocked", id: "k", at: DAY, members: ["carriage"] };
    const knocked = estimateTimeline(
      machine,
      timelineOf(
        machine,
        [playRun(0), { ...playRun(2 * DAY), check: "runout", options: {}, readings: [["seating 1", 0.03]] }],
        [knock],
      ),
    );
    expect(sdOf(knocked, "backlash.x")).toBeCloseTo(Math.hypot(sdOf(known, "backlash.x"), prior?.priorSd ?? 0), 4);
    const replaced: Happening = { kind: "part-replaced", id: "k", at: DAY, members: ["carriage"] };
    const fresh = estimateTimeline(
      machine,
      timelineOf(
        machine,
        [playRun(0), { ...playRun(2 * DAY), check: "runout", options: {}, readings: [["seating 1", 0.03]] }],
        [replaced],
      ),
    );
    expect(valueOfMode(fresh, "backlash.x")).toBeCloseTo(prior?.priorMean ?? 0, 6);
    expect(sdOf(fresh, "backlash.x")).toBeCloseTo(prior?.priorSd ?? 0, 6);
  });

  it("drifts once over a gap of a week or more, by variance in proportion to the time", () => {
    const runout = (at: number) => ({
      check: "runout",
      at,
      instrument: "test indicator",
      readings: [["seating 1", 0.03]] as const,
    });
    const sdAfter = (days: number) =>
      sdOf(estimateTimeline(machine, timelineOf(machine, [playRun(0), runout(days * DAY)])), "backlash.x");
    const still = sdAfter(6);
    const months = (days: number) => days / 30.44;
    expect(sdAfter(60)).toBeCloseTo(Math.hypot(still, 0.02 * Math.sqrt(months(60))), 5);
    expect(sdAfter(240)).toBeCloseTo(Math.hypot(still, 0.02 * Math.sqrt(months(240))), 5);
  });

  it("knows a bed that has just been skimmed as flat to the motion, whatever it was before", () => {
    const touch = (at: number) => ({
      check: "bed-touch",
      at,
      instrument: "touch plate",
      readings: Array.from(
        { length: 25 },
        (_, i) => [`row ${Math.floor(i / 5) + 1} column ${(i % 5) + 1}`, 0.4 * Math.sin(i)] as const,
      ),
    });
    const skimmed: Happening = { kind: "skimmed", id: "s", at: DAY };
    const estimate = estimateTimeline(machine, timelineOf(machine, [touch(0), playRun(2 * DAY)], [skimmed]));
    const twist = machine.parameterIndex.get("bed.twist") as number;
    expect(estimate.state[twist]).toBeCloseTo(0, 9);
    expect(sdOf(estimate, "bed.twist")).toBeCloseTo(0.02, 6);
  });

  it("never learns an instrument better than its permissible error by reading more often", () => {
    const often = Array.from({ length: 20 }, (_, i) => scaleRun(i * 1000, 1));
    expect(sdOf(estimateTimeline(machine, timelineOf(machine, often)), "scale.x")).toBeGreaterThan(0.19);
  });

  it("knows lengths better by calipers that were read on a block of the same size as well", () => {
    const withCalipers = (compared: string) => {
      const blank = layOutProblem(
        machine,
        plannedTimeline(machine, [{ check: "hole-rectangle", options: { compared } }]),
      );
      const random = createRandom(1);
      return estimateTimeline(machine, simulateReadings(blank, drawTruth(blank, random), random));
    };
    expect(sdOf(withCalipers("yes"), "scale.x")).toBeLessThan(0.998 * sdOf(withCalipers("no"), "scale.x"));
  });

  it("takes an edge that touches as next to no gap, not as one that is known without any doubt", () => {
    const check = checkById("beam-upright") as GeometricCheck;
    const stations = check.stations({ machine, options: {}, instrument: null });
    const touching = timelineOf(machine, [
      { check: check.id, at: 0, instrument: "feeler", readings: stations.map(({ key }) => [key, 0] as const) },
    ]);
    const entries = [
      { form: "value", value: 0 },
      { form: "value", value: 0 },
    ] as const;
    const both = { ...touching, readings: touching.readings.map((reading) => ({ ...reading, entries })) };
    for (const timeline of [touching, both]) {
      const { values, converged } = estimateTimeline(machine, timeline);
      expect(converged).toBe(true);
      expect(values.every(Number.isFinite)).toBe(true);
    }
  });

  it("forgets a withdrawn reading", () => {
    const timeline = timelineOf(machine, [playRun(0, 0.12), playRun(DAY, 0.3)]);
    const withdrawn = {
      ...timeline,
      readings: timeline.readings.map((reading) =>
        reading.run === "run 1" ? { ...reading, withdrawn: "slip" } : reading,
      ),
    };
    const without = estimateTimeline(machine, timelineOf(machine, [playRun(0, 0.12)]));
    expect(valueOfMode(estimateTimeline(machine, withdrawn), "backlash.x")).toBeCloseTo(
      valueOfMode(without, "backlash.x"),
      9,
    );
  });

  it("says before it is accepted how a reading sits, and what it will change", () => {
    const timeline = timelineOf(machine, [playRun(0, 0.12)]);
    const fewer = { ...timeline, readings: timeline.readings.slice(0, 2) };
    const before = estimateTimeline(machine, fewer);
    const innovation = innovationOf(before, timeline, timeline.readings[2]);
    expect(innovation?.fits).toBe("fits");
    const far = {
      ...timeline,
      readings: [...fewer.readings, { ...timeline.readings[2], entries: [{ form: "value", value: 0.6 }] as const }],
    };
    expect(innovationOf(before, far, far.readings[2])?.fits).toBe("far");
    const after = estimateTimeline(machine, timeline);
    const play = before.problem.present[machine.parameterIndex.get("backlash.x") as number];
    const previewed = before.values[play] + (innovation?.change[play] ?? 0);
    expect(Math.abs(previewed - valueOfMode(after, "backlash.x"))).toBeLessThan(1e-6 * sdOf(after, "backlash.x"));
  });

  it("shares out all of its information, and no more", () => {
    const estimate = estimateTimeline(machine, simulated(machine, 6));
    const random = createRandom(2);
    const g = Float64Array.from(estimate.values, () => random.normal());
    const total = sharesOfInformation(estimate, g).reduce((sum, { share }) => sum + share, 0);
    expect(total).toBeCloseTo(1, 9);
  });
});
