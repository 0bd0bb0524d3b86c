import { test } from "vitest";
import {
  acceptanceLimits,
  chanceNotBeyond,
  conformanceProbability,
  globalRisks,
  guardBand,
  measurementCapability,
  normalPrior,
  type PriorDensity,
} from "../../src/core/standards/jcgm106.ts";
import { openReference } from "./reference.ts";

const bearing = openReference("[JCGM 106 §9.5.4]");

test("ball bearing: a gamma prior against one upper limit", () => {
  // Gamma with shape 4 and rate 4 per µm: 4⁴·y³·e^(−4y)/3!.
  const prior: PriorDensity = {
    density: (y) => (256 * y ** 3 * Math.exp(-4 * y)) / 6,
    from: 0,
    to: 20,
    scale: 0.25,
  };
  const tolerance = { upper: 2 };
  const simple = globalRisks(prior, 0.25, tolerance);
  const limit = (target: number) => {
    let [low, high] = [1, 2];
    for (let halving = 0; halving < 60; halving++) {
      const middle = (low + high) / 2;
      if (globalRisks(prior, 0.25, tolerance, { upper: middle }).consumersRisk > target) high = middle;
      else low = middle;
    }
    return low;
  };
  const guarded = limit(0.001);
  const strict = globalRisks(prior, 0.25, tolerance, { upper: guarded });
  const tail = Math.exp(-8) * (1 + 8 + 32 + 512 / 6);
  bearing.number({
    what: "not conforming, %",
    expected: "4.2",
    got: 100 * (1 - simple.conforming),
    status: "published",
  });
  bearing.number({
    what: "not conforming, of 1",
    expected: "0.0423801120",
    got: 1 - simple.conforming,
    status: "published",
  });
  bearing.digits({
    what: "not conforming against e⁻⁸·(1 + 8 + 32 + 512/6)",
    pairs: [[tail, 1 - simple.conforming]],
    status: "closed form",
    atLeast: 12,
    summary: "0.042380…",
  });
  bearing.number({
    what: "consumer's risk, simple acceptance",
    expected: "0.0080191119",
    got: simple.consumersRisk,
    status: "published",
  });
  bearing.number({
    what: "producer's risk, simple acceptance",
    expected: "0.0174446",
    got: simple.producersRisk,
    status: "independent program",
  });
  bearing.number({
    what: "limit for a consumer's risk of 0.1 %, µm",
    expected: "1.6718287715",
    got: guarded,
    status: "published",
    within: 2e-10,
    because: "two programs, two roundings",
  });
  bearing.number({
    what: "producer's risk there",
    expected: "0.0754939",
    got: strict.producersRisk,
    status: "independent program",
  });
});

const resistors = openReference("[JCGM 106 §9]");

test("resistors: a normal prior against two limits", () => {
  const prior = normalPrior(1500, 0.12);
  const tolerance = { lower: 1499.8, upper: 1500.2 };
  const cases = [
    { guard: 0, consumer: "0.0189422067", producer: "0.0372078002" },
    { guard: 0.02, consumer: "0.00987829152", producer: "0.0690265105" },
    { guard: 0.08, consumer: "0.000468634", producer: "0.247669640" },
  ] as const;
  for (const { guard, consumer, producer } of cases) {
    const risks = globalRisks(prior, 0.04, tolerance, acceptanceLimits(tolerance, guard));
    const name = `guard ${guard} Ω`;
    resistors.number({
      what: `${name}: consumer's risk`,
      expected: consumer,
      got: risks.consumersRisk,
      status: "independent program",
    });
    resistors.number({
      what: `${name}: producer's risk`,
      expected: producer,
      got: risks.producersRisk,
      status: "independent program",
    });
    if (guard === 0.02) {
      resistors.number({
        what: `${name}: consumer's risk, %`,
        expected: "1",
        got: 100 * risks.consumersRisk,
        status: "from memory",
      });
      resistors.number({
        what: `${name}: producer's risk, %`,
        expected: "7",
        got: 100 * risks.producersRisk,
        status: "from memory",
      });
    }
    if (guard === 0) {
      resistors.number({ what: "conforming", expected: "0.90441929545", got: risks.conforming, status: "closed form" });
      resistors.number({ what: "conforming, %", expected: "90", got: 100 * risks.conforming, status: "from memory" });
    }
  }
  resistors.number({
    what: "C_m of ±0.2 Ω measured with u = 0.04 Ω",
    expected: "2.5",
    got: measurementCapability(0.4, 0.04),
    status: "closed form",
  });
});

const conformance = openReference("[JCGM 106 §7]");

test("conformance probabilities of single measurements", () => {
  const diode = conformanceProbability(-5.47, 0.05, { upper: -5.4 });
  conformance.number({ what: "diode, upper limit", expected: "0.92", got: diode, status: "from memory" });
  conformance.number({
    what: "diode, upper limit, more digits",
    expected: "0.9192433408",
    got: diode,
    status: "independent program",
  });
  const container = conformanceProbability(509.7, 8.6, { lower: 490 });
  conformance.number({ what: "container, lower limit", expected: "0.99", got: container, status: "from memory" });
  conformance.number({
    what: "container, lower limit, more digits",
    expected: "0.9890095474",
    got: container,
    status: "independent program",
  });
  const oil = conformanceProbability(13.6, 1.8, { lower: 12.5, upper: 16.3 });
  conformance.number({ what: "motor oil, two limits", expected: "0.66", got: oil, status: "from memory" });
  conformance.number({
    what: "motor oil, two limits, more digits",
    expected: "0.6626297865",
    got: oil,
    status: "independent program",
  });
});

const guards = openReference("[JCGM 106 §8]");

test("guard bands for a probability", () => {
  const rows = [
    [0.8, "0.84"],
    [0.9, "1.28"],
    [0.95, "1.64"],
    [0.99, "2.33"],
    [0.999, "3.09"],
  ] as const;
  for (const [probability, expected] of rows) {
    // 1.645 is printed rounded down.
    const cut = probability === 0.95 ? { within: 0.0051, because: "1.645 is printed so" } : {};
    guards.number({
      what: `z for ${probability}`,
      expected,
      got: guardBand(1, probability),
      status: "from memory",
      ...cut,
    });
  }
  // Speed over the limit with 99.9 %, u being 2 % of the speed shown: v = limit + z·0.02·v.
  guards.number({
    what: "road speed to act at for a limit of 100 km/h",
    expected: "107",
    got: 100 / (1 - guardBand(0.02, 0.999)),
    status: "from memory",
  });
});

test("rejection that is guarded by 95 chances in 100", () => {
  // A value that lies beyond its limit by the guard band lies beyond it with just that probability, on either side.
  for (const side of [1, -1]) {
    guards.number({
      what: `not beyond, ${side > 0 ? "upper" : "lower"} limit plus guard band`,
      expected: "0.050000",
      got: chanceNotBeyond(side * (2 + guardBand(0.3, 0.95)), 0.3, 2),
      status: "closed form",
    });
  }
});
