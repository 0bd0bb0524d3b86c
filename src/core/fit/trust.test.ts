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
import { changeWithout } from "./left-out.ts";
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
    expect(returned(again(simulated(4), "run 0", 0.01))).toBeNull();
    expect(returned(again(simulated(4), "run 0", 0.2))?.moved).toBeCloseTo(0.2, 9);
  });

  it("takes no reading behind a move for the first station read again at the end", () => {
    const timeline = again(simulated(4), "run 0", 0.2);
    const at = timeline.readings[timeline.readings.length - 1].at - 500;
    const moved = { kind: "moved", id: "move", at, adjuster: "beam.left", amount: 0.2 } as const;
    expect(returned({ ...timeline, happenings: [moved] })).toBeNull();
  });

  it("knows no return where every reading follows a homing of its own", () => {
    const run = plannedTimeline(machine, [{ check: "stop-gaps" }]).runs[0];
    const value = (id: string, station: string, at: number, gap: number): Reading => ({
      ...{ id, run: run.id, station, at: run.at + at, withdrawn: null },
      entries: [
        { form: "value", value: gap },
        { form: "value", value: 0 },
      ],
    });
    const timeline = plannedTimeline(machine, [{ check: "stop-gaps" }]);
    const readings = [
      value("a", "first press", 1, 0.5),
      value("b", "second press", 2, 0.6),
      value("c", "first press", 3, 0.9),
    ];
    expect(returned({ ...timeline, readings }, run.id)).toBeNull();
  });

  describe("of a station that was read three times, once wrongly", () => {
    const sound = simulated(5);
    const victim = sound.readings.find(({ id }) => id.endsWith("row 3 column 3")) as Reading;
    const repeated = (...by: readonly number[]): Timeline => {
      const values = by.map((shift, i): Reading => {
        const [entry] = victim.entries;
        const value = (entry.form === "value" ? entry.value : 0) + shift;
        return { ...victim, id: `${victim.id} ${i}`, at: victim.at + i, entries: [{ form: "value", value }] };
      });
      return {
        ...sound,
        readings: sound.readings.flatMap((reading) => (reading === victim ? values : [reading])),
      };
    };
    const judged = (timeline: Timeline) => judgeTrust(estimateTimeline(machine, timeline));

    it("marks the slip, and neither its repeats nor its neighbours", () => {
      const odd = judged(repeated(2.2, 0, 0.005)).rows.flatMap(({ oddOnes }) => oddOnes);
      expect(odd.map(({ reading, against, isOpen }) => [reading.id, against, isOpen])).toEqual([
        [`${victim.id} 0`, "repeats", false],
      ]);
      expect(odd[0].away).toBeCloseTo(2.1975, 9);
    });

    it("marks the slip of two by what all others lead to expect", () => {
      const odd = judged(repeated(2.2, 0)).rows.flatMap(({ oddOnes }) => oddOnes);
      expect(odd.map(({ reading }) => reading.id)).toEqual([`${victim.id} 0`]);
    });

    it("lets the slip drag nothing along: the fit stays nearly what it is without it", () => {
      const clean = estimateTimeline(machine, repeated(0, 0.005));
      const slipped = estimateTimeline(machine, repeated(2.2, 0, 0.005));
      const sd = (i: number) => Math.sqrt(clean.covariance[i * clean.state.length + i]);
      clean.state.forEach((value, i) => {
        expect(Math.abs(slipped.state[i] - value), machine.parameters[i]).toBeLessThan(0.7 * sd(i) + 1e-9);
      });
    });

    it("says to first order what a fit without the slip then is", () => {
      const slipped = estimateTimeline(machine, repeated(0.3, 0, 0.005));
      const trust = judgeTrust(slipped);
      const row = trust.rows.find(({ oddOnes }) => oddOnes.length > 0);
      const fitted = slipped.rows.flat().find(({ observation }) => observation === row?.observation);
      if (!row || !fitted) throw new Error("the slip is marked");
      const change = changeWithout(slipped, fitted, row.leverage, new Set([row.oddOnes[0].reading.id]));
      const clean = estimateTimeline(machine, repeated(0, 0.005));
      slipped.problem.variables.forEach(({ id, usualSd }, i) => {
        expect(Math.abs(slipped.values[i] + change[i] - clean.values[i]), id).toBeLessThan(0.002 * usualSd);
      });
    });
  });
});

/** The first station of a run read once more, after all others, and further along. */
function again(timeline: Timeline, run: string, by: number): Timeline {
  const first = timeline.readings.find((reading) => reading.run === run) as Reading;
  const [entry] = first.entries;
  const value = (entry.form === "value" ? entry.value : 0) + by;
  const at = Math.max(...timeline.readings.map((reading) => reading.at)) + 1000;
  const last: Reading = { ...first, id: `${first.id} again`, at, entries: [{ form: "value", value }] };
  return { ...timeline, readings: [...timeline.readings, last] };
}

function returned(timeline: Timeline, id = "run 0") {
  return judgeTrust(estimateTimeline(machine, timeline)).runs.find(({ run }) => run.id === id)?.returned;
}
