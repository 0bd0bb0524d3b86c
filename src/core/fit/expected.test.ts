import { describe, expect, it } from "vitest";
import {
  broughtExactly,
  broughtLinearly,
  type LearntMachine,
  learntMachine,
  takenAtEnd,
} from "../../../tests/simulation/expected-information.ts";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { playRun, sdOf, timelineOf, valueOfMode } from "../../../tests/simulation/small-timeline.ts";
import { simulatedInstruments } from "../../../tests/simulation/workshop.ts";
import { checkById, geometricChecks } from "../checks/catalogue.ts";
import type { GeometricCheck } from "../checks/check.ts";
import type { Entry } from "../instruments/entry.ts";
import { createRandom } from "../numerics/random.ts";
import { type Estimate, estimateTimeline } from "./estimate.ts";
import { outlookFrom, type PossibleRun } from "./expected.ts";
import { readingFeel } from "./expected-rows.ts";
import type { Reading } from "./timeline.ts";

const layouts = ["moving-gantry", "fixed-bridge"] as const;
const words = ({ check, setup }: PossibleRun) => `${check.id} ${JSON.stringify(setup.options)}`;

/** Pasts in which carriages rock, and there was a move and a skim, or a knock; and short ones, of which little is known. */
const linearPasts = { "moving-gantry": [36, 37], "fixed-bridge": [3, 35] } as const;
const exactPasts = { "moving-gantry": [2, 28], "fixed-bridge": [3, 28] } as const;

describe.each(layouts)("what a check would bring on a %s", (layout) => {
  const expectWholeCatalogue = (machines: readonly LearntMachine[]) => {
    const asked = new Set(machines.flatMap(({ runs }) => runs.map(({ check }) => check.id)));
    const all = geometricChecks.filter((check) => check.layouts.includes(layout)).map(({ id }) => id);
    expect(all.filter((id) => !asked.has(id))).toEqual([]);
  };

  // There are thousands of comparisons: only one that fails is put into words.
  it("is exactly what its readings bring where everything is linear, over the whole catalogue", () => {
    const machines = linearPasts[layout].map((seed) => learntMachine(layout, seed));
    expectWholeCatalogue(machines);
    for (const learnt of machines) {
      for (const run of learnt.runs) {
        for (const { about, before, expected, left } of broughtLinearly(learnt, run)) {
          if (!(Math.abs(expected / left - 1) < 1e-9)) expect(expected, `${words(run)}: ${about}`).toBe(left);
          if (!(expected <= before)) expect(expected, `${words(run)}: ${about}`).toBeLessThanOrEqual(before);
        }
      }
    }
  });

  it("is within a tenth of what it then brings on the exact model, over the whole catalogue", () => {
    const machines = exactPasts[layout].map((seed) => learntMachine(layout, seed));
    expectWholeCatalogue(machines);
    const random = createRandom(1000);
    for (const learnt of machines) {
      for (const run of learnt.runs) {
        for (const { about, expected, left } of broughtExactly(learnt, run, random)) {
          if (!(Math.abs(expected / left - 1) < 0.1)) expect(expected, `${words(run)}: ${about}`).toBe(left);
        }
      }
    }
  });
});

it("a bound that was felt before is weighed anew, as the fit does when the run reads what was predicted", () => {
  const machine = workedMachine("moving-gantry");
  const felt: Entry = { form: "atMost", bound: 0.08 };
  const plain = timelineOf(machine, [{ ...playRun(0), instrument: "feeler", readings: [["nose", 0]] }]);
  const timeline = { ...plain, readings: plain.readings.map((reading) => ({ ...reading, entries: [felt] as const })) };
  const estimate = estimateTimeline(machine, timeline);
  const setup = { machine, options: { axis: "X" }, instrument: simulatedInstruments.feeler };
  const run = { check: checkById("turnaround") as GeometricCheck, setup, objects: {} };
  const outlook = outlookFrom(estimate, [gradientOfMode(estimate, "backlash.x")]);
  const [now] = outlook.now;
  const [after] = outlook.after([run]);
  const predicted = valueOfMode(estimate, "backlash.x");
  const gap = (middle: number): Entry => ({ form: "interval", goes: middle - 0.025, doesNotGo: middle + 0.025 });
  const taken = takenAtEnd(timeline, run, "new");
  const readings = taken.readings.map(
    (reading): Reading => (reading.run === "new" ? { ...reading, entries: [gap(0.5 + predicted), gap(0.5)] } : reading),
  );
  const left = sdOf(estimateTimeline(machine, { ...taken, readings }), "backlash.x");
  expect(Math.sqrt(after) / left).toBeCloseTo(1, 4);
  expect(left).toBeLessThan(0.5 * Math.sqrt(now));
});

function gradientOfMode({ problem }: Estimate, id: string): Float64Array {
  const g = new Float64Array(problem.variables.length);
  g[problem.present[problem.machine.parameterIndex.get(id) as number]] = 1;
  return g;
}

function gradientsOfModes(estimate: Estimate): readonly Float64Array[] {
  return estimate.problem.machine.modes.map(({ id }) => gradientOfMode(estimate, id));
}

describe("several runs", () => {
  const learnt = learntMachine("moving-gantry", 3);
  const gradients = gradientsOfModes(learnt.estimate);
  const outlook = outlookFrom(learnt.estimate, gradients);
  const runOf = (id: string) => learnt.runs.find(({ check }) => check.id === id) as PossibleRun;

  it("bring together at least what each brings alone, in whatever order", () => {
    const [a, b] = [runOf("upright-sweep"), runOf("bed-touch")];
    const both = outlook.after([a, b]);
    const turned = outlook.after([b, a]);
    const alone = [outlook.after([a]), outlook.after([b])];
    both.forEach((variance, i) => {
      expect(variance / turned[i]).toBeCloseTo(1, 9);
      expect(variance).toBeLessThanOrEqual(Math.min(alone[0][i], alone[1][i]) * (1 + 1e-12));
    });
  });

  it("share the object that both lean on", () => {
    // The square's own angle is what an upright sweep cannot tell from the lean; drawing it both ways round gives it.
    const sweep = runOf("upright-sweep");
    const flip = runOf("square-flip");
    const lean = learnt.machine.modes.findIndex(({ id }) => id === "slide.lean.side");
    const [alone, shared] = [outlook.after([sweep])[lean], outlook.after([sweep, flip])[lean]];
    expect(shared).toBeLessThan(0.9 * alone);
    const others = outlook.after([sweep, { ...flip, objects: {} }])[lean];
    expect(others / alone).toBeCloseTo(1, 9);
  });

  it("bring nothing when there are none of them", () => {
    expect(Array.from(outlook.after([]))).toEqual(Array.from(outlook.now));
  });
});

describe("one reading as a person takes it", () => {
  const setupOf = (id: string, family: string) => ({
    check: checkById(id) as GeometricCheck,
    setup: {
      machine: learntMachine("moving-gantry", 3).machine,
      options: {},
      instrument: simulatedInstruments[family],
    },
  });

  it("by leaves lies between what goes and what does not", () => {
    expect(readingFeel(setupOf("gap-under-beam", "feeler"))).toBeCloseTo(Math.hypot(0.05 / Math.sqrt(12), 0.02), 9);
    const fine = { ...simulatedInstruments.feeler, leaves: { leavesMm: [0.3, 0.2, 0.02], largestStack: 3 } };
    const { check, setup } = setupOf("gap-under-beam", "feeler");
    const felt = readingFeel({ check, setup: { ...setup, instrument: fine as typeof setup.instrument } });
    expect(felt).toBeCloseTo(Math.hypot(0.02 / Math.sqrt(12), 0.02), 9);
  });

  it("is felt twice where two gaps are read, and once where one of them is a touch", () => {
    const one = readingFeel(setupOf("gap-under-beam", "feeler"));
    expect(readingFeel(setupOf("stop-gaps", "feeler"))).toBeCloseTo(Math.SQRT2 * one, 9);
    expect(readingFeel(setupOf("beam-upright", "feeler"))).toBeCloseTo(Math.hypot(one, 0.003), 9);
    expect(readingFeel(setupOf("turnaround", "dial"))).toBeCloseTo(Math.hypot(0.01 / Math.sqrt(12), 0.01), 9);
  });
});
