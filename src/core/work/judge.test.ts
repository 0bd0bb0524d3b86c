import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { randomState } from "../../../tests/simulation/random-state.ts";
import { plannedTimeline, sixChecks, workedMachine } from "../../../tests/simulation/simulate.ts";
import { workStateWith } from "../../../tests/simulation/work-state-with.ts";
import { findings } from "../findings/catalogue.ts";
import { evaluateFindings } from "../findings/evaluate.ts";
import { estimateTimeline } from "../fit/estimate.ts";
import { valuesOnly } from "../machine/kinematics.ts";
import type { Machine } from "../machine/machine.ts";
import { normalCdf } from "../numerics/distributions.ts";
import { chanceAtMost, normalAboveNothing } from "../numerics/normal-above-nothing.ts";
import { createRandom, type Random } from "../numerics/random.ts";
import { quadraticForm } from "../numerics/symmetric.ts";
import { conformanceProbability } from "../standards/jcgm106.ts";
import { correlatedNormals } from "../uncertainty/monte-carlo.ts";
import { demandFromWish, demandKinds } from "./catalogue.ts";
import { type Demand, type DemandKindId, type DemandSizes, reduceSamples } from "./demand.ts";
import { judgeDemands } from "./judge.ts";
import { type WorkState, workState } from "./work-state.ts";

const machine = workedMachine("moving-gantry");

function made(on: Machine, kind: DemandKindId, sizes: DemandSizes, limit: number): Demand {
  const outcome = demandFromWish(on, { kind, sizes, limit });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

const scale = (axis: string, limit: number) => made(machine, "scale", { axis }, limit);
const play = (axis: string, limit: number) => made(machine, "play", { axis }, limit);

/** Four standard deviations of a share of 10,000 draws. */
function scatter(chance: number, draws = 10_000): number {
  return 4 * Math.sqrt(Math.max(chance * (1 - chance), 1 / draws) / draws);
}

function expectChance(found: number, expected: number): void {
  expect(Math.abs(found - expected), `${found} for ${expected}`).toBeLessThan(scatter(expected));
}

/** A covariance without a zero in it: A·Aᵀ with A of random numbers, sized by the modes' own spreads. */
function fullCovariance(on: Machine, random: Random, size: number): Float64Array {
  const n = on.parameters.length;
  const sds = on.parameters.map((_, i) => size * (on.modes[i]?.priorSd ?? 0.2));
  const a = Float64Array.from({ length: n * n }, () => random.normal() / Math.sqrt(n));
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = i === j ? 0.2 : 0;
      for (let k = 0; k < n; k++) sum += a[i * n + k] * a[j * n + k];
      covariance[i * n + j] = sum * sds[i] * sds[j];
    }
  }
  return covariance;
}

function randomWorkState(on: Machine, random: Random, size: number): WorkState {
  const n = on.parameters.length;
  return {
    scene: { machine: on, state: randomState(on, random, size), size: n, skim: null },
    covariance: fullCovariance(on, random, size),
  };
}

describe("the chance of one number that is normal", () => {
  test.each([
    [0, 1, 1.96],
    [1.2, 0.4, 1.5],
    [-2, 0.5, 1.5],
    [0.3, 3, 1],
  ])("%d ± %d against a limit of %d is that of two sides", (mean, sd, limit) => {
    const state = workStateWith(machine, { "scale.x": mean }, { "scale.x": sd });
    const [{ probability, value }] = judgeDemands(state, [scale("x", limit)]).results;
    expectChance(probability, conformanceProbability(mean, sd, { lower: -limit, upper: limit }));
    expect(value).toBeCloseTo(Math.abs(mean), 9);
  });

  test.each([
    [0.1, 0.02, 0.12],
    [0.05, 0.05, 0.06],
    [0, 0.1, 0.12],
    [-0.1, 0.05, 0.03],
    [-1, 0.05, 0.004],
  ])("play of %d ± %d against %d is that of what is left above nothing, its interval too", (mean, sd, limit) => {
    const state = workStateWith(machine, { "backlash.x": mean }, { "backlash.x": sd });
    const [result] = judgeDemands(state, [play("x", limit)]).results;
    expectChance(result.probability, chanceAtMost(mean, sd, limit));
    const { low, high } = normalAboveNothing(mean, sd);
    const width = high - low;
    expect(Math.abs(result.low - low)).toBeLessThan(0.03 * width);
    expect(Math.abs(result.high - high)).toBeLessThan(0.05 * width);
    expectChance(chanceAtMost(mean, sd, result.median), 0.5);
    expect(result.low).toBeGreaterThanOrEqual(0);
    expect(result.value).toBeCloseTo(Math.max(0, mean), 9);
  });

  test("over a full covariance is that of the variance of the whole", () => {
    const random = createRandom(71);
    for (let trial = 0; trial < 10; trial++) {
      const state = randomWorkState(machine, random, 0.3);
      for (const id of ["backlash.x", "backlash.y", "spindle.runout", "backlash.z"])
        state.scene.state[machine.parameterIndex.get(id) as number] = 100;
      const demand = made(machine, "diagonals", {}, 0.2 + random.uniform());
      const [{ value, gradient }] = demand.samples(state.scene);
      const sd = Math.sqrt(quadraticForm(state.covariance, gradient));
      const [{ probability }] = judgeDemands(state, [demand]).results;
      expectChance(probability, conformanceProbability(value, sd, { lower: -demand.limit, upper: demand.limit }));
    }
  });

  test("is one or nothing where everything is known", () => {
    const state = workStateWith(machine, { "scale.x": 1 });
    const { results, together } = judgeDemands(state, [scale("x", 1.001), scale("x", 0.999)], 100);
    expect(results.map(({ probability, verdict }) => [probability, verdict])).toEqual([
      [1, "within"],
      [0, "out"],
    ]);
    for (const key of ["value", "low", "median", "high"] as const) expect(results[0][key]).toBeCloseTo(1, 9);
    expect(together).toBe(0);
  });
});

describe("the chance of several samples", () => {
  test("a spread that hangs on one slope is that of the slope", () => {
    const state = workStateWith(machine, { "bed.tilt.x": 0.3 }, { "bed.tilt.x": 0.4 });
    const demand = made(machine, "depth-spread", { widthMm: 500, depthMm: 100 }, 0.3);
    const [result] = judgeDemands(state, [demand]).results;
    expectChance(result.probability, conformanceProbability(0.3, 0.4, { lower: -0.6, upper: 0.6 }));
    expect(result.value).toBeCloseTo(0.15, 9);
  });

  test("the largest of two that do not hang together is within by the product of their chances", () => {
    const state = workStateWith(machine, {}, { "scale.x": 2, "scale.y": 3 });
    const demand = made(machine, "sides", { widthMm: 300, heightMm: 200 }, 0.5);
    const [{ probability }] = judgeDemands(state, [demand]).results;
    const one = (sd: number) => conformanceProbability(0, sd, { lower: -0.5, upper: 0.5 });
    expectChance(probability, one(0.6) * one(0.6));
  });

  test("what hangs together is drawn together: two scales that are the same number", () => {
    const state = workStateWith(machine, {}, { "scale.x": 2, "scale.y": 2 });
    const n = machine.parameters.length;
    const [i, j] = ["scale.x", "scale.y"].map((id) => machine.parameterIndex.get(id) as number);
    state.covariance[i * n + j] = 4;
    state.covariance[j * n + i] = 4;
    const { results, together } = judgeDemands(state, [scale("x", 2), scale("y", 2)]);
    expect(together).toBe(results[0].probability);
    expect(results[1].probability).toBe(results[0].probability);
    // A circle that grows as a whole stays round.
    expect(judgeDemands(state, [made(machine, "circle", {}, 1e-6)], 200).together).toBe(1);
  });

  test("agrees with the exact machine asked anew in every draw", () => {
    const random = createRandom(72);
    for (const layout of ["moving-gantry", "fixed-bridge"] as const) {
      const on = workedMachine(layout);
      const state = randomWorkState(on, random, 0.3);
      // So far above nothing that nothing is cut off.
      on.modes.forEach(({ neverNegative, priorSd }, i) => {
        if (neverNegative) state.scene.state[i] = 5 * priorSd;
      });
      const draw = correlatedNormals(Array.from(state.scene.state), state.covariance, createRandom(73));
      const states = Array.from({ length: 1000 }, () => Float64Array.from(draw()));
      for (const { id } of demandKinds) {
        const bare = made(on, id, {}, 1);
        const numbers = states
          .map((at) => {
            const values = bare.samples(valuesOnly(on, at)).map(({ value }) => value);
            return reduceSamples(bare, values);
          })
          .sort((a, b) => a - b);
        const limit = numbers[600];
        const [{ probability, median }] = judgeDemands(state, [made(on, id, {}, limit)], 4000).results;
        expect(Math.abs(probability - 0.6), `${layout} ${id}`).toBeLessThan(0.05);
        expect(Math.abs(median - numbers[500]), `${layout} ${id}`).toBeLessThan(0.08 * (numbers[975] - numbers[25]));
      }
    }
  });
});

describe("out", () => {
  const verdicts = (at: WorkState, demands: readonly Demand[]) =>
    judgeDemands(at, demands, 500).results.map(({ verdict }) => verdict);
  const scaled = ({ scene, covariance }: WorkState, by: number): WorkState => {
    return { scene, covariance: covariance.map((element) => element * by ** 2) };
  };

  test.each(["moving-gantry", "fixed-bridge"] as const)(
    "is never said from doubt alone: a %s that stands as it should is not, whatever is not known of it",
    (layout) => {
      const on = workedMachine(layout);
      fc.assert(
        fc.property(
          fc.integer({ min: 1, max: 1e6 }),
          fc.double({ min: 0.01, max: 30, noNaN: true }),
          fc.double({ min: 1e-3, max: 1, noNaN: true }),
          (seed, doubt, limit) => {
            const { scene, covariance } = randomWorkState(on, createRandom(seed), doubt);
            const sound = { scene: { ...scene, state: new Float64Array(scene.size) }, covariance };
            const demands = demandKinds.map(({ id }) => made(on, id, {}, limit));
            expect(verdicts(sound, demands)).not.toContain("out");
          },
        ),
        { seed: 76, numRuns: 15 },
      );
    },
  );

  test("is carried by the estimate: it stays when less is in doubt, and goes with what the estimate lies off", () => {
    let out = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.double({ min: 0.02, max: 0.5, noNaN: true }),
        fc.constantFrom(...demandKinds.map(({ id }) => id)),
        (seed, doubt, kind) => {
          const random = createRandom(seed);
          const state = randomState(machine, random, 1);
          const { scene, covariance } = randomWorkState(machine, random, doubt);
          const at = { scene: { ...scene, state }, covariance };
          const demand = made(machine, kind, {}, 0.1 + random.uniform());
          if (verdicts(at, [demand])[0] !== "out") return;
          out += 1;
          expect(verdicts(scaled(at, 0.3), [demand])).toEqual(["out"]);
          const sound = { scene: { ...scene, state: new Float64Array(scene.size) }, covariance };
          expect(verdicts(sound, [demand])).not.toEqual(["out"]);
        },
      ),
      { seed: 77, numRuns: 150 },
    );
    expect(out).toBeGreaterThan(30);
  });

  test("needs more than a chance that is small: ten limits of doubt about nothing are not known yet", () => {
    const [broad, tight] = [10, 0.2].map(
      (sd) => judgeDemands(workStateWith(machine, { "scale.x": 1.5 }, { "scale.x": sd }), [scale("x", 1)]).results[0],
    );
    const [doubtful] = judgeDemands(workStateWith(machine, {}, { "scale.x": 30 }), [scale("x", 1)]).results;
    expect(broad.verdict).toBe("not known yet");
    expect(doubtful.probability).toBeLessThan(0.05);
    expect(doubtful.verdict).toBe("not known yet");
    expect(tight.verdict).toBe("out");
  });
});

describe("demands together", () => {
  const state = workStateWith(
    machine,
    { "scale.x": 0.5, "backlash.x": 0.05 },
    { "scale.x": 1, "scale.y": 1.5, "backlash.x": 0.05, "bed.tilt.x": 0.5 },
  );

  test("that do not hang together are all kept by the product of their chances", () => {
    const demands = [scale("x", 1), scale("y", 2), play("x", 0.1)];
    const { results, together } = judgeDemands(state, demands);
    expectChance(
      together,
      results.reduce((product, { probability }) => product * probability, 1),
    );
  });

  test("are never kept more often than the least likely of them, nor less often than the chances leave", () => {
    const random = createRandom(74);
    for (let trial = 0; trial < 5; trial++) {
      const at = randomWorkState(machine, random, 0.2);
      const demands = demandKinds.map(({ id }) => made(machine, id, {}, 0.1 + 2 * random.uniform()));
      const { results, together } = judgeDemands(at, demands, 1000);
      expect(together).toBeLessThanOrEqual(Math.min(...results.map(({ probability }) => probability)) + 1e-12);
      const missed = results.reduce((sum, { probability }) => sum + 1 - probability, 0);
      expect(together).toBeGreaterThanOrEqual(1 - missed - 1e-9);
    }
  });

  test("are kept by whoever demands nothing", () => {
    expect(judgeDemands(state, [], 10)).toEqual({ results: [], together: 1 });
  });

  test("come out the same every time, alone or beside others, in whatever order", () => {
    const [a, b, c] = [scale("x", 1), made(machine, "depth-spread", {}, 0.3), play("x", 0.1)];
    const all = judgeDemands(state, [a, b, c]);
    expect(judgeDemands(state, [a, b, c])).toEqual(all);
    expect(judgeDemands(state, [b]).results[0]).toEqual(all.results[1]);
    const turned = judgeDemands(state, [c, b, a]);
    expect([...turned.results].reverse()).toEqual(all.results);
    expect(turned.together).toBe(all.together);
    expect(judgeDemands(state, [a], 10_000, 7).results[0].median).not.toBe(all.results[0].median);
  });

  test("are the likelier to be kept the more is allowed, and the verdict goes by the chance", () => {
    fc.assert(
      fc.property(
        fc.constantFrom<DemandKindId>("sides", "circle", "depth-spread", "play", "size"),
        fc.double({ min: 0.02, max: 2, noNaN: true }),
        fc.double({ min: 1, max: 3, noNaN: true }),
        (kind, limit, wider) => {
          const [tight, loose] = [limit, limit * wider].map(
            (allowed) => judgeDemands(state, [made(machine, kind, {}, allowed)], 500).results[0],
          );
          expect(loose.probability).toBeGreaterThanOrEqual(tight.probability);
          expect(tight.verdict === "within").toBe(tight.probability >= 0.95);
          if (tight.verdict === "out") expect(tight.probability).toBeLessThanOrEqual(0.05);
          expect(tight.low).toBeLessThanOrEqual(tight.median);
          expect(tight.median).toBeLessThanOrEqual(tight.high);
        },
      ),
      { seed: 75, numRuns: 60 },
    );
  });
});

describe("what cannot be negative", () => {
  test("play that was found below nothing is taken as nothing, and the rest is asked there", () => {
    const state = workStateWith(machine, { "backlash.x": -0.3, "scale.x": 1 });
    const [size] = judgeDemands(state, [made(machine, "size", { lengthMm: 100 }, 1)], 10).results;
    expect(size.value).toBeCloseTo(0.1, 9);
  });

  test("does not keep what hangs together with it from following", () => {
    const state = workStateWith(machine, { "backlash.x": 0.05 }, { "backlash.x": 0.1, "scale.x": 1 });
    const n = machine.parameters.length;
    const [i, j] = ["backlash.x", "scale.x"].map((id) => machine.parameterIndex.get(id) as number);
    state.covariance[i * n + j] = 0.1;
    state.covariance[j * n + i] = 0.1;
    // The two are one number: play at most its median and scale at most its own are the same draws.
    const middle = judgeDemands(state, [play("x", 1)]).results[0].median;
    const { results, together } = judgeDemands(state, [play("x", middle), made(machine, "scale", { axis: "x" }, 50)]);
    expect(together).toBe(results[0].probability);
    expectChance(chanceAtMost(0.05, 0.1, middle), 0.5);
    expect(results[1].median).toBeGreaterThan(0.6);
    // |scale| is the size of a plain normal, as if nobody had asked about play.
    expect(Math.abs(normalCdf(results[1].median) - 0.75)).toBeLessThan(0.01);
  });
});

describe.each(["moving-gantry", "fixed-bridge"] as const)("after six checks on a %s", (layout) => {
  const on = workedMachine(layout);
  const estimate = estimateTimeline(on, plannedTimeline(on, sixChecks()));
  const limits = { own: new Map(findings.map(({ id }) => [id, 0.1])), usual: new Map<string, number>() };
  const found = evaluateFindings(estimate, limits, { passed: true, checks: [] });
  const chanceOf = (id: string) => found.find(({ finding }) => finding.id === id)?.probability ?? Number.NaN;

  test.each([
    ["play", { axis: "x" }, "lost-motion.x"],
    ["play", { axis: "y" }, "lost-motion.y"],
    ["play", { axis: "z" }, "lost-motion.z"],
    ["scale", { axis: "x" }, "scale.x"],
    ["runout", {}, "runout"],
    ["depth-spread", {}, "depth-spread"],
  ] as const)("%s %o has the chance of the finding", (kind, sizes, finding) => {
    const [{ probability }] = judgeDemands(workState(estimate), [made(on, kind, sizes, 0.1)]).results;
    // The finding of a spread has a tenth of the draws.
    expect(Math.abs(probability - chanceOf(finding))).toBeLessThan(0.02 + scatter(probability, 1000));
  });

  test("work that is cut next is cut after another homing: corners scatter by it on a gantry alone", () => {
    const corner = made(on, "squareness", {}, 0.3);
    const later = judgeDemands(workState(estimate), [corner]).results[0];
    const { scene, covariance } = workState(estimate);
    const home = on.parameterIndex.get("gantry.rack.home") as number;
    const still = Float64Array.from(covariance);
    still[home * scene.size + home] = 0;
    const known = judgeDemands({ scene, covariance: still }, [corner]).results[0];
    if (layout === "moving-gantry") expect(later.high - later.low).toBeGreaterThan(known.high - known.low);
    else expect(later).toEqual(known);
  });

  test("a bed that was skimmed is judged against the motion that skimmed it, though nobody has read either", () => {
    const timeline = plannedTimeline(on, []);
    const skimmed = estimateTimeline(on, { ...timeline, happenings: [{ kind: "skimmed", id: "s", at: 3_600_000 }] });
    const depth = made(on, "depth-spread", {}, 0.15);
    const before = judgeDemands(workState(estimateTimeline(on, timeline)), [depth]).results[0];
    const after = judgeDemands(workState(skimmed), [depth]).results[0];
    expect(workState(skimmed).scene.skim).not.toBeNull();
    expect(before.low).toBeGreaterThan(0.5);
    // What the motion was then it is now, in every draw: only what a skim leaves to chance is left.
    expect(after.high).toBeLessThan(0.15);
    expect(after.verdict).toBe("within");
  });
});
