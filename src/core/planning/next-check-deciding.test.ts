import { describe, expect, it } from "vitest";
import { learntMachine } from "../../../tests/simulation/expected-information.ts";
import { covarianceTimes } from "../estimation/elimination.ts";
import { dot, quadraticForm } from "../numerics/symmetric.ts";
import { demandFromGeneralWish } from "../work/catalogue.ts";
import type { Demand, DemandWish } from "../work/demand.ts";
import type { DemandResult } from "../work/demand-result.ts";
import { judgeDemands } from "../work/judge.ts";
import { decisionOf, decisionVariance, type Standing, standingOf } from "./next-check-deciding.ts";

const wishes: readonly DemandWish[] = [
  { kind: "depth-spread", sizes: {}, limit: 0.25 },
  { kind: "tram", sizes: {}, limit: 0.1 },
  { kind: "diagonals", sizes: {}, limit: 0.3 },
  { kind: "plunge-lean", sizes: {}, limit: 0.06 },
];

function demandsOn(machine: Parameters<typeof demandFromGeneralWish>[0]): readonly Demand[] {
  return wishes.map((wish) => {
    const made = demandFromGeneralWish(machine, wish);
    if (!made.ok) throw new Error(wish.kind);
    return made.value;
  });
}

const judged = (demand: Demand, probability: number): DemandResult => ({
  demand,
  value: 0,
  low: 0,
  median: 0,
  high: 0,
  probability,
  verdict: "not known yet",
});

describe.each(["moving-gantry", "fixed-bridge"] as const)("what decides a demand on a %s", (layout) => {
  // A past with a skim, and one without.
  const pasts = [7, 3].map((seed) => learntMachine(layout, seed));

  it.each([false, true])(
    "varies by what readings tell and what none tells, and by nothing else (will be skimmed: %s)",
    (willSkim) => {
      for (const { machine, estimate } of pasts) {
        const standing = standingOf(estimate, willSkim);
        const { scene, covariance } = standing.state;
        for (const demand of demandsOn(machine)) {
          for (const { gradient } of demand.samples(scene)) {
            const over = standing.overVariables(gradient);
            const parts = dot(over, covarianceTimes(estimate.factor, over)) + standing.beyondReading(gradient);
            expect(parts / quadraticForm(covariance, gradient), demand.id).toBeCloseTo(1, 6);
          }
        }
      }
    },
  );

  it.each(["largest", "spread"] as const)("is what lies near the limit and not what lies well inside (%s)", (form) => {
    const [, { machine, estimate }] = pasts;
    const standing = standingOf(estimate, false);
    const { covariance, scene } = standing.state;
    // Samples that are known to ± 1 each: one at the limit of 10 (or ten above another), one in the middle.
    const one = (value: number, mode: number) => {
      const gradient = new Float64Array(scene.size);
      gradient[mode] = 1 / Math.sqrt(covariance[mode * scene.size + mode]);
      return { value, gradient };
    };
    const samples = () => [one(10, 0), one(5, 1), one(0, 2)];
    const [depth] = demandsOn(machine);
    const { functions } = decisionOf(standing, judged({ ...depth, form, limit: 10, samples }, 0.5));
    const heaviest = functions.reduce((a, b) => (a.weight >= b.weight ? a : b));
    expect(heaviest.weight).toBeGreaterThan(0.99);
    const deciding = samples()[0].gradient;
    if (form === "spread") deciding[2] -= samples()[2].gradient[2];
    const over = standing.overVariables(deciding);
    expect(Array.from(heaviest.gradient, Math.abs)).toEqual(Array.from(over, Math.abs));
    expect(functions.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    const variances = functions.map(({ gradient }) => dot(gradient, covarianceTimes(estimate.factor, gradient)));
    const whole = decisionVariance(functions, variances);
    expect(whole / dot(over, covarianceTimes(estimate.factor, over))).toBeCloseTo(1, 1);
  });
});

describe("how undecided a demand is", () => {
  const { machine, estimate } = learntMachine("moving-gantry", 3);
  const standing = standingOf(estimate, false);
  const [, tram] = demandsOn(machine);
  const undecided = (demand: Demand, probability: number, at: Standing = standing) =>
    decisionOf(at, judged(demand, probability)).undecided;

  it("is nothing where it is surely in, and most where in and out are alike", () => {
    expect(undecided(tram, 1)).toBe(0);
    expect(undecided(tram, 0.95)).toBeCloseTo(0, 12);
    expect(undecided(tram, 0.9)).toBeGreaterThan(0);
    expect(undecided(tram, 0.5)).toBe(1);
  });

  it("stays as it is where a broad doubt alone makes it unlikely to be in", () => {
    // Half a millimetre of doubt about nothing, against a limit of a tenth.
    expect(undecided(tram, 0.02)).toBeGreaterThan(0.3);
  });

  it("is nothing where one sample is surely beyond the limit", () => {
    const state = Float64Array.from(standing.state.scene.state);
    state[machine.parameterIndex.get("spindle.tilt.side") as number] += 60;
    const beyond: Standing = {
      ...standing,
      state: { ...standing.state, scene: { ...standing.state.scene, state } },
    };
    expect(undecided(tram, 0, beyond)).toBe(0);
  });

  it("agrees with the verdict where a machine is well known", () => {
    const known = learntMachine("moving-gantry", 9);
    const at = standingOf(known.estimate, false);
    for (const result of judgeDemands(at.state, demandsOn(known.machine)).results) {
      const { undecided: doubt } = decisionOf(at, result);
      if (result.verdict === "within") expect(doubt, result.demand.id).toBe(0);
      if (result.verdict === "not known yet") expect(doubt, result.demand.id).toBeGreaterThan(0);
    }
  });
});
