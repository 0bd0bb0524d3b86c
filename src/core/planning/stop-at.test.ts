import { beforeAll, describe, expect, it } from "vitest";
import { demandsOfTrial } from "../../../tests/simulation/closed-loop.ts";
import {
  drawTruth,
  plannedTimeline,
  simulateReadings,
  sixChecks,
  workedMachine,
} from "../../../tests/simulation/simulate.ts";
import { simulatedInstruments } from "../../../tests/simulation/workshop.ts";
import { type Estimate, estimateTimeline } from "../fit/estimate.ts";
import { predictObservation } from "../fit/linearise.ts";
import { layOutProblem, type Problem } from "../fit/problem.ts";
import type { Timeline } from "../fit/timeline.ts";
import type { Instrument } from "../instruments/instrument.ts";
import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import { adjustersOf } from "../machine/adjusters/catalogue.ts";
import type { LayoutId } from "../machine/description.ts";
import { valuesOnly } from "../machine/kinematics.ts";
import { type Machine, machineFromDescription } from "../machine/machine.ts";
import { createRandom } from "../numerics/random.ts";
import { type Demand, reduceSamples } from "../work/demand.ts";
import type { StopAt } from "./plan.ts";
import { type MoveAcross, readingAtStop, stateAtAmount, stopAt } from "./stop-at.ts";
import { scatterOfMove } from "./stop-at-band.ts";
import { stopInWords } from "./stop-words.ts";

const layouts = ["moving-gantry", "fixed-bridge"] as const;
const square = { square: "square" };

/** Adjusters whose amount is a number to be typed, or what a cut leaves: nothing is left to a gauge. */
const withoutGauge = ["steps.x", "steps.y", "steps.z", "bed.skim"];

const ownSquare = new Map([
  ["square", { id: "square", kind: "square", family: "square", name: "square", priors: {} }],
]) as unknown as Timeline["objects"];

function estimated(layout: LayoutId, checks: "none" | "many", objects: Timeline["objects"] = new Map()): Estimate {
  const machine = workedMachine(layout);
  const plan = checks === "none" ? [] : [...sixChecks(), { check: "square-sweep", objects: square }];
  const problem = layOutProblem(machine, { ...plannedTimeline(machine, plan), objects });
  const random = createRandom(11);
  const truth = drawTruth(problem, random);
  setGauges(problem, truth);
  return estimateTimeline(machine, simulateReadings(problem, truth, random));
}

/** A person chooses the block and sets the dial so that every station can be read. */
function setGauges(problem: Problem, truth: Float64Array): void {
  const byGauge = new Map<number, number[]>();
  for (const observation of problem.observations) {
    const at = observation.unknownKeys.findIndex((key) => /^(block|zero|position)/.test(key));
    if (at < 0) continue;
    const variable = observation.columns[observation.unknownsFrom + at];
    const readings = byGauge.get(variable) ?? [];
    readings.push(predictObservation(problem, observation, truth).value);
    byGauge.set(variable, readings);
  }
  for (const [variable, readings] of byGauge) {
    const { id } = problem.variables[variable];
    const lowest = Math.min(...readings);
    // A block, and where a square lies, are taken off a reading; a zero is added.
    if (/: zero/.test(id)) truth[variable] += 3 - lowest;
    else truth[variable] += lowest - (/: block/.test(id) ? 0.5 : 3);
  }
}

function moveOf(estimate: Estimate, adjuster: Adjuster, amount = usualAmount(adjuster)): MoveAcross {
  const { machine } = estimate.problem;
  const before = Float64Array.from(estimate.state);
  // Play that is worth taking up.
  for (const [id, [mean]] of Object.entries(adjuster.leaves ?? {})) {
    const index = machine.parameterIndex.get(id);
    if (index !== undefined) before[index] = mean + 0.15;
  }
  const after = Float64Array.from(before);
  const put = (id: string, change: (value: number) => number) => {
    const index = machine.parameterIndex.get(id);
    if (index !== undefined) after[index] = change(after[index]);
  };
  for (const [id, perUnit] of Object.entries(adjuster.effect)) put(id, (value) => value + perUnit * amount);
  for (const [id, [mean]] of Object.entries(adjuster.leaves ?? {})) put(id, () => mean);
  return { adjuster, amount, before, after };
}

function usualAmount({ kind, unit, homesTo }: Adjuster): number {
  // What is pricked and read by rule shows a home from about 1 mm on.
  if (homesTo !== undefined) return 2;
  return kind !== "add" ? 1 : unit === "mm/m" ? -2 : 0.3;
}

function adjusterOf(machine: Machine, id: string): Adjuster {
  return adjustersOf(machine).find((adjuster) => adjuster.id === id) as Adjuster;
}

/** The amount at which the exact model's gauge reads this. */
function amountWhereItReads(estimate: Estimate, stop: StopAt, move: MoveAcross, reading: number): number {
  const off = (amount: number) => readingAtStop(estimate, stop, stateAtAmount(move, amount)) - reading;
  let [low, high] = [-move.amount, 3 * move.amount];
  const sign = Math.sign(off(high) - off(low));
  for (let halving = 0; halving < 60; halving++) {
    const middle = (low + high) / 2;
    if (sign * off(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Each demand with a limit a little above what it comes to after the move, so that it is within and has little to spare. */
function tightDemands(machine: Machine, { after }: MoveAcross): readonly Demand[] {
  return demandsOfTrial(machine).map((demand) => ({ ...demand, limit: 1.1 * valueAt(demand, machine, after) + 0.01 }));
}

function valueAt(demand: Demand, machine: Machine, state: Float64Array): number {
  return reduceSamples(
    demand,
    demand.samples(valuesOnly(machine, state)).map(({ value }) => value),
  );
}

describe.each(layouts)("a stop reading on a %s", (layout) => {
  const machine = workedMachine(layout);
  let estimates: Readonly<Record<"none" | "many", Estimate>>;
  beforeAll(() => {
    estimates = { none: estimated(layout, "none"), many: estimated(layout, "many") };
  });
  const adjusters = adjustersOf(machine).filter(({ id }) => !withoutGauge.includes(id));
  const cases = adjusters.flatMap((adjuster) => (["none", "many"] as const).map((read) => ({ adjuster, read })));
  /** A bridge's yaw shows on a square, which is not at hand here, and a turned bed only on lines that are printed on it. */
  const hidden = { none: ["bridge.yaw", "bed.turn"], many: ["bed.turn"] };

  it.each(cases)(
    "$adjuster.id, $read read before: reached exactly, it leaves the predicted state",
    ({ adjuster, read }) => {
      const estimate = estimates[read];
      const move = moveOf(estimate, adjuster);
      const stop = stopAt({ estimate, move, demands: [] });
      if (stop === null) {
        expect(hidden[read]).toContain(adjuster.id);
        return;
      }
      expect(amountWhereItReads(estimate, stop, move, stop.reads)).toBeCloseTo(move.amount, 6);
      expect(stop.from).toBeLessThanOrEqual(stop.reads);
      expect(stop.to).toBeGreaterThanOrEqual(stop.reads);
      expect(stop.run === null).toBe(read === "none" || stop.run === null);
      if (stop.against !== null) expect(stop.run).toBeNull();
    },
  );

  it.each(adjusters)("$id: the ends of the band leave every demand within that was within", (adjuster) => {
    const estimate = estimates.many;
    const move = moveOf(estimate, adjuster);
    const demands = tightDemands(machine, move);
    const stop = stopAt({ estimate, move, demands });
    if (stop === null) {
      expect(hidden.many).toContain(adjuster.id);
      return;
    }
    const changeOf = (id: string) => {
      const index = machine.parameterIndex.get(id) as number;
      return (move.after[index] - move.before[index]) / move.amount;
    };
    const sd = scatterOfMove(adjuster, changeOf);
    for (const end of [stop.from, stop.to]) {
      const amount = amountWhereItReads(estimate, stop, move, end);
      const off = Math.abs(amount - move.amount);
      expect(off).toBeLessThanOrEqual(Math.abs(move.amount) / 4 + 1e-6);
      // What the joint itself leaves to chance cannot be asked of anybody.
      if (off <= sd + 1e-6) continue;
      for (const demand of demands) {
        expect(valueAt(demand, machine, stateAtAmount(move, amount))).toBeLessThanOrEqual(demand.limit);
      }
    }
  });

  it("is not proposed where the gauge cannot tell the move from nothing", () => {
    for (const adjuster of adjusters.filter(({ kind }) => kind === "add")) {
      const amount = adjuster.unit === "mm/m" ? 0.02 : 0.002;
      const move = moveOf(estimates.many, adjuster, amount);
      expect(stopAt({ estimate: estimates.many, move, demands: [] })).toBeNull();
    }
  });

  it("is not proposed for a number that is typed, nor for a skim", () => {
    for (const id of withoutGauge) {
      const move = moveOf(estimates.many, adjusterOf(machine, id), 1);
      expect(stopAt({ estimate: estimates.many, move, demands: [] })).toBeNull();
    }
  });

  it("goes on with the run under the beam when a beam's end is moved, with the block that lies there", () => {
    const estimate = estimates.many;
    const move = moveOf(estimate, adjusterOf(machine, "beam.right"), 0.29);
    const stop = stopAt({ estimate, move, demands: [] }) as StopAt;
    expect(stop.check.id).toBe("gap-under-beam");
    expect(stop.run).toBe("run 9");
    expect(stop.station.key).toMatch(/right$/);
    expect(stop.reads).toBeGreaterThan(0.05);
    expect(stop.reads).toBeLessThan(2.85);
  });

  const isBridge = layout === "fixed-bridge";

  if (isBridge)
    it("is given for a yaw though no square lies there yet: it is laid and read before the joint is opened", () => {
      const estimate = estimated(layout, "none", ownSquare);
      const move = moveOf(estimate, adjusterOf(machine, "bridge.yaw"));
      const stop = stopAt({ estimate, move, demands: demandsOfTrial(machine) }) as StopAt;
      expect(stop).toMatchObject({ run: null, against: null, setUp: "before the move" });
      expect(stop.reads).toBe(stop.changesBy);
      expect(readingAtStop(estimate, stop, move.before)).toBeCloseTo(0, 9);
      expect(readingAtStop(estimate, stop, move.after)).toBeCloseTo(stop.reads, 9);
      expect(stopInWords(stop)).toMatch(
        /^Before the joint is opened, set this up and leave it standing\. .* Read station .* once\. Stop when .* than then\./,
      );
    });

  if (isBridge)
    it("goes on with a square that lies there, and says what to do when it has been taken away", () => {
      const estimate = estimated(layout, "many", ownSquare);
      const move = moveOf(estimate, adjusterOf(machine, "bridge.yaw"), 1);
      const stop = stopAt({ estimate, move, demands: demandsOfTrial(machine) }) as StopAt;
      expect(stop.check.id).toBe("square-sweep");
      expect(stop).toMatchObject({ run: "run 10", setUp: "as it stood" });
      expect(stopInWords(stop)).toMatch(
        /If anything of that run's set-up has been touched since, set it up before the joint is opened, read station .* once, and stop when it reads \S+ (more|less) than then\.$/,
      );
    });

  if (!isBridge)
    it("of a home is a length of new marks, read after a homing with the drives on", () => {
      for (const read of ["none", "many"] as const) {
        const estimate = estimates[read];
        const move = moveOf(estimate, adjusterOf(machine, "gantry.offset"), -1.9);
        const stop = stopAt({ estimate, move, demands: demandsOfTrial(machine) }) as StopAt;
        expect(stop).toMatchObject({ check: { id: "hole-rectangle" }, run: null, setUp: "anew", homesFirst: true });
        expect(stop.setup.options.marks).toBe("pricks");
        expect(stop.setup.instrument?.family).not.toBe("calipers");
        // Whoever has not made the move, or half of it, does not read what is good enough.
        expect(stop.to - stop.from).toBeLessThanOrEqual(Math.abs(stop.changesBy) / 2 + 1e-9);
      }
    });

  if (!isBridge)
    it("of a home waits for no gap at the stops, though leaves are all there is", () => {
      const { feeler } = simulatedInstruments;
      const thick = { ...feeler, rangeMm: { from: 0, to: 6 } } as Instrument;
      const timeline = { ...plannedTimeline(machine, []), instruments: new Map([[thick.id, thick]]) };
      const estimate = estimateTimeline(machine, timeline);
      const move = moveOf(estimate, adjusterOf(machine, "gantry.offset"), 3);
      expect(stopAt({ estimate, move, demands: demandsOfTrial(machine) })).toBeNull();
    });

  if (!isBridge)
    it("of a belt that one motor drives is felt at the stops, with nothing to home", () => {
      const shaft = machineFromDescription({ ...machine.description, details: { motorsOnY: 1 } });
      const adjuster = adjusterOf(shaft, "gantry.offset");
      expect(adjuster.homesTo).toBeUndefined();
      const problem = layOutProblem(shaft, plannedTimeline(shaft, [{ check: "hole-rectangle" }]));
      const random = createRandom(11);
      const read = simulateReadings(problem, drawTruth(problem, random), random);
      const thick = { ...simulatedInstruments.feeler, rangeMm: { from: 0, to: 6 } } as Instrument;
      const estimate = estimateTimeline(shaft, {
        ...read,
        instruments: new Map([...read.instruments, [thick.id, thick]]),
      });
      const move = moveOf(estimate, adjuster, 3);
      const stop = stopAt({ estimate, move, demands: demandsOfTrial(shaft) }) as StopAt;
      expect(stop).toMatchObject({
        check: { id: "stop-gaps" },
        run: null,
        setUp: "before the move",
        homesFirst: false,
      });
      expect(stop.reads).toBeCloseTo(3, 1);
      expect(stopInWords(stop)).toMatch(/the right gap has gained 3(\.\d+)? on the left gap at station 1/);
    });

  it("counts against another station of a run to be begun", () => {
    const move = moveOf(estimates.none, adjusterOf(machine, "slide.side"));
    const stop = stopAt({ estimate: estimates.none, move, demands: [] }) as StopAt;
    expect(stop.check.id).toBe("tram-sweep");
    expect(stop.run).toBeNull();
    expect(stop.against).not.toBeNull();
  });

  it("is the same each time", () => {
    const move = moveOf(estimates.many, adjusterOf(machine, "rail.left.front"));
    const [one, other] = [0, 1].map(() => stopAt({ estimate: estimates.many, move, demands: [] }));
    expect(one).toEqual(other);
  });
});

describe("the beam's right end raised by 0.29", () => {
  it("makes the right station rise by about 0.24 and the left one by about 0.06", () => {
    const estimate = estimated("moving-gantry", "many");
    const move = moveOf(estimate, adjusterOf(estimate.problem.machine, "beam.right"), 0.29);
    const stop = stopAt({ estimate, move, demands: [] }) as StopAt;
    const rise = (key: string) => {
      const station = stop.check.stations(stop.setup).find((candidate) => candidate.key === key)!;
      const at = (state: Float64Array) => readingAtStop(estimate, { ...stop, station }, state);
      return at(move.after) - at(move.before);
    };
    // The lever of a rigid beam: 0.29 · (x − xL)/W with x = 540 and 60, xL = −90, W = 780.
    expect(rise("front right")).toBeCloseTo((0.29 * 630) / 780, 3);
    expect(rise("front left")).toBeCloseTo((0.29 * 150) / 780, 3);
    expect(Math.abs(rise("front right") - 0.24)).toBeLessThan(0.01);
    expect(Math.abs(rise("front left") - 0.06)).toBeLessThan(0.01);
  });
});
