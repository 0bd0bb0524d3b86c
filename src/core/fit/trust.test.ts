import { describe, expect, it } from "vitest";
import {
  drawTruth,
  plannedTimeline,
  simulateReadings,
  sixChecks,
  workedMachine,
} from "../../../tests/simulation/simulate.ts";
import { createRandom } from "../numerics/random.ts";
import { estimateTimeline } from "./estimate.ts";
import { layOutProblem } from "./problem.ts";
import type { Reading, Timeline } from "./timeline.ts";
import { judgeTrust } from "./trust.ts";

const machine = workedMachine("moving-gantry");

function simulated(seed: number): Timeline {
  const blank = layOutProblem(machine, plannedTimeline(machine, sixChecks()));
  const random = createRandom(seed);
  return simulateReadings(blank, drawTruth(blank, random), random);
}

/** The timeline with one reading of a run shifted. */
function shifted(timeline: Timeline, id: string, by: number): Timeline {
  const change = (reading: Reading): Reading => {
    const [entry] = reading.entries;
    return reading.id === id && entry.form === "value"
      ? { ...reading, entries: [{ form: "value", value: entry.value + by }] }
      : reading;
  };
  return { ...timeline, readings: timeline.readings.map(change) };
}

describe("trust", () => {
  it("flags few sound readings and no sound run over many machines", () => {
    let odd = 0;
    let asked = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const trust = judgeTrust(estimateTimeline(machine, simulated(seed)));
      odd += trust.rows.filter((row) => row.odd).length;
      asked += trust.rows.length;
      expect(trust.runs.filter(({ misread }) => misread !== null)).toHaveLength(0);
    }
    // Beyond 3.5 standard deviations lie 5 in 10,000.
    expect(odd).toBeLessThanOrEqual(asked * 0.003);
  });

  it("names the reading that was typed half a millimetre too large", () => {
    const timeline = simulated(3);
    const victim = timeline.readings.find(({ id }) => id.endsWith("row 3 column 3")) as Reading;
    const rows = judgeTrust(estimateTimeline(machine, shifted(timeline, victim.id, 0.5))).rows.filter((row) => row.odd);
    const oddest = rows.sort((a, b) => Math.abs(b.studentised) - Math.abs(a.studentised))[0];
    expect(oddest.readings[0].id).toBe(victim.id);
  });

  it("says when the first station, read again at the end, had moved by more than twice the feel", () => {
    const timeline = simulated(4);
    const [first] = timeline.readings.filter(({ run }) => run === "run 0");
    const [entry] = first.entries;
    const again = (by: number): Timeline => {
      const value = (entry.form === "value" ? entry.value : 0) + by;
      const last: Reading = {
        ...first,
        id: `${first.id} again`,
        at: first.at + 1000,
        entries: [{ form: "value", value }],
      };
      return { ...timeline, readings: [...timeline.readings, last] };
    };
    const returned = (by: number) =>
      judgeTrust(estimateTimeline(machine, again(by))).runs.find(({ run }) => run.id === "run 0")?.returned;
    expect(returned(0.01)).toBeNull();
    expect(returned(0.2)?.moved).toBeCloseTo(0.2, 9);
  });
});
