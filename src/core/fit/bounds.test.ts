import { describe, expect, it } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { playRun, sdOf, timelineOf, valueOfMode } from "../../../tests/simulation/small-timeline.ts";
import type { Entry } from "../instruments/entry.ts";
import { estimateTimeline } from "./estimate.ts";

const machine = workedMachine("moving-gantry");
const play = machine.modes.find(({ id }) => id === "backlash.x") as { priorMean: number; priorSd: number };
/** The feel of the simulated dial, mm; its step of 0.01 is no part of a bound. */
const FEEL = 0.01;
const READ = Math.hypot(0.01 / Math.sqrt(12), FEEL);

/** Play of X by as many readings as there are entries, and nothing else. */
function estimateFrom(entries: readonly Entry[]) {
  const timeline = timelineOf(machine, [{ ...playRun(0), readings: entries.map(() => ["nose", 0] as const) }]);
  const estimate = estimateTimeline(machine, {
    ...timeline,
    readings: timeline.readings.map((reading, i) => ({ ...reading, entries: [entries[i]] as const })),
  });
  expect(estimate.converged).toBe(true);
  return { mean: valueOfMode(estimate, "backlash.x"), sd: sdOf(estimate, "backlash.x") };
}

/** The same by quadrature: prior times likelihoods on a fine grid, Φ itself as a running sum. */
function quadrature(entries: readonly Entry[]) {
  const step = 2e-5;
  const normal = (z: number) => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  const zs = Array.from({ length: 160_001 }, (_, i) => -8 + i * 1e-4);
  let sum = 0;
  const cdf = zs.map((z) => {
    sum += normal(z) * 1e-4;
    return sum;
  });
  const phi = (z: number) => (z <= -8 ? 0 : z >= 8 ? 1 : cdf[Math.round((z + 8) / 1e-4)]);
  let [w, m, s] = [0, 0, 0];
  for (let x = play.priorMean - 8 * play.priorSd; x < play.priorMean + 8 * play.priorSd; x += step) {
    let density = normal((x - play.priorMean) / play.priorSd);
    for (const entry of entries) {
      if (entry.form === "atLeast") density *= phi((x - entry.bound) / FEEL);
      if (entry.form === "atMost") density *= phi((entry.bound - x) / FEEL);
      if (entry.form === "value") density *= normal((x - entry.value) / READ);
    }
    w += density;
    m += density * x;
    s += density * x * x;
  }
  return { mean: m / w, sd: Math.sqrt(s / w - (m / w) ** 2) };
}

describe("a bound", () => {
  it.each([
    ["that cuts off most of what was likely", [{ form: "atLeast", bound: 0.25 }]],
    ["from above", [{ form: "atMost", bound: 0.08 }]],
    ["that lies far off and says nothing", [{ form: "atMost", bound: 0.9 }]],
    [
      "that a reading agrees with",
      [
        { form: "value", value: 0.2 },
        { form: "atLeast", bound: 0.19 },
      ],
    ],
  ] as [string, Entry[]][])("%s leaves the mean and the uncertainty that quadrature finds", (_, entries) => {
    const { mean, sd } = estimateFrom(entries);
    const exact = quadrature(entries);
    expect(Math.abs(mean - exact.mean)).toBeLessThan(0.002 * exact.sd);
    expect(sd / exact.sd).toBeGreaterThan(0.998);
    expect(sd / exact.sd).toBeLessThan(1.002);
  });

  it.each([
    [
      "from both sides",
      [
        { form: "atLeast", bound: 0.1 },
        { form: "atMost", bound: 0.2 },
      ],
    ],
    ["felt three times over", Array.from({ length: 3 }, () => ({ form: "atLeast", bound: 0.2 }))],
  ] as [string, Entry[]][])(
    "%s leaves the mean within the feel of a leaf, and the uncertainty within a seventh",
    (_, entries) => {
      const { mean, sd } = estimateFrom(entries);
      const exact = quadrature(entries);
      expect(Math.abs(mean - exact.mean)).toBeLessThan(FEEL);
      expect(sd / exact.sd).toBeGreaterThan(1 - 1 / 7);
      expect(sd / exact.sd).toBeLessThan(1 + 1 / 7);
    },
  );

  it("that contradicts a sharp reading gives way by no more than both allow", () => {
    const { mean } = estimateFrom([
      { form: "value", value: 0.1 },
      { form: "atLeast", bound: 0.3 },
    ]);
    expect(mean).toBeGreaterThan(0.1);
    expect(mean).toBeLessThan(0.3);
  });
});
