import { test } from "vitest";
import { createRandom } from "../../src/core/numerics/random.ts";
import {
  type InputDistribution,
  meanOfDistribution,
  standardUncertaintyOfDistribution,
} from "../../src/core/uncertainty/input-distribution.ts";
import {
  correlatedNormals,
  shortestCoverageInterval,
  simulate,
  simulateDraws,
  symmetricCoverageInterval,
} from "../../src/core/uncertainty/monte-carlo.ts";
import { type MeasurementModel, propagate } from "../../src/core/uncertainty/propagation.ts";
import { openReference } from "./reference.ts";

// Seeds are fixed, so that every run draws the same numbers. Tolerances are about four standard errors of what is
// compared; the ends of a shortest interval, where the density is flat along its ends, scatter several times wider.
const trials = 400_000;
const drawn = "400 000 trials";

const random = createRandom(101);

function asInputs(inputs: readonly InputDistribution[]) {
  return inputs.map((input) => ({
    value: meanOfDistribution(input),
    standardUncertainty: standardUncertaintyOfDistribution(input),
  }));
}

const additive = openReference("[JCGM 101 §9.2]");
const sum: MeasurementModel = (x) => x.reduce((total, value) => total + value, 0);

test("9.2, sums of normal and rectangular inputs", () => {
  const normal = { kind: "normal", mean: 0, standardUncertainty: 1 } as const;
  const rectangular = { kind: "rectangular", low: -Math.sqrt(3), high: Math.sqrt(3) } as const;
  const wide = { kind: "rectangular", low: -10 * Math.sqrt(3), high: 10 * Math.sqrt(3) } as const;

  const normals = simulate(sum, [normal, normal, normal, normal], trials, random.fork("9.2.2"));
  additive.number({
    what: "u of four normal inputs",
    expected: "2.00",
    got: normals.standardUncertainty,
    status: "from memory",
    within: 0.01,
    because: drawn,
  });
  additive.number({
    what: "95 % half width of four normal inputs",
    expected: "3.92",
    got: symmetricCoverageInterval(normals, 0.95).high,
    status: "from memory",
    within: 0.03,
    because: drawn,
  });

  const rectangles = simulate(sum, [rectangular, rectangular, rectangular, rectangular], trials, random.fork("9.2.3"));
  additive.number({
    what: "95 % half width of four rectangular inputs",
    expected: "3.8794067",
    got: symmetricCoverageInterval(rectangles, 0.95).high,
    status: "closed form",
    within: 0.03,
    because: drawn,
  });

  const mixed = [rectangular, rectangular, rectangular, wide];
  const dominated = simulate(sum, mixed, trials, random.fork("9.2.4"));
  const law = propagate(sum, asInputs(mixed));
  additive.number({
    what: "u with one input ten times as wide, by the law",
    expected: "10.148892",
    got: law.standardUncertainty,
    status: "closed form",
  });
  additive.number({
    what: "u with one input ten times as wide",
    expected: "10.1",
    got: dominated.standardUncertainty,
    status: "from memory",
  });
  additive.number({
    what: "its 95 % half width",
    expected: "17.0",
    got: symmetricCoverageInterval(dominated, 0.95).high,
    status: "from memory",
  });
  additive.number({
    what: "its 95 % half width, taken as normal",
    expected: "19.9",
    got: 1.959964 * law.standardUncertainty,
    status: "from memory",
  });
});

const mass = openReference("[JCGM 101 §9.3]");

test("9.3, calibration of a mass in air", () => {
  const inputs: readonly InputDistribution[] = [
    { kind: "normal", mean: 100_000, standardUncertainty: 0.05 },
    { kind: "normal", mean: 1.234, standardUncertainty: 0.02 },
    { kind: "rectangular", low: 1.1, high: 1.3 },
    { kind: "rectangular", low: 7000, high: 9000 },
    { kind: "rectangular", low: 7950, high: 8050 },
  ];
  const model: MeasurementModel = ([reference, added, air, weight, standard]) =>
    (reference! + added!) * (1 + (air! - 1.2) * (1 / weight! - 1 / standard!)) - 100_000;
  const first = propagate(model, asInputs(inputs));
  const second = propagate(model, asInputs(inputs), { secondOrder: true });
  const drawing = simulate(model, inputs, trials, random.fork("9.3"));
  const interval = shortestCoverageInterval(drawing, 0.95);
  mass.number({ what: "δm, mg", expected: "1.2340", got: first.value, status: "from memory" });
  mass.number({
    what: "u by the first order, mg",
    expected: "0.0539",
    got: first.standardUncertainty,
    status: "from memory",
  });
  mass.number({
    what: "u by the second order, mg",
    expected: "0.0750",
    got: second.standardUncertainty,
    status: "from memory",
  });
  mass.number({
    what: "u by the second order, mg, more digits",
    expected: "0.0749635",
    got: second.standardUncertainty,
    status: "independent program",
    within: 2e-6,
    because: "derivatives by differences",
  });
  mass.number({
    what: "mean by drawing, mg",
    expected: "1.2341",
    got: drawing.mean,
    status: "from memory",
    within: 5e-4,
    because: drawn,
  });
  mass.number({
    what: "u by drawing, mg",
    expected: "0.0754",
    got: drawing.standardUncertainty,
    status: "from memory",
    within: 4e-4,
    because: drawn,
  });
  mass.number({
    what: "shortest 95 % interval from, mg",
    expected: "1.0834",
    got: interval.low,
    status: "from memory",
    within: 4e-3,
    because: drawn,
  });
  mass.number({
    what: "shortest 95 % interval to, mg",
    expected: "1.3825",
    got: interval.high,
    status: "from memory",
    within: 4e-3,
    because: drawn,
  });
});

const power = openReference("[JCGM 101 §9.4]");

test("9.4, Y = X₁² + X₂², independent", () => {
  const u = 0.005;
  const cases = [
    { x1: 0, mean: "50", deviation: "50", interval: [0, 149.79], within: 2 },
    { x1: 0.01, mean: "150", deviation: "111.803", interval: [0, 366.01], within: 4 },
    { x1: 0.05, mean: "2550", deviation: "502.494", interval: [1593.57, 3548.57], within: 40 },
  ] as const;
  for (const { x1, mean, deviation, interval, within } of cases) {
    const inputs: readonly InputDistribution[] = [
      { kind: "normal", mean: x1, standardUncertainty: u },
      { kind: "normal", mean: 0, standardUncertainty: u },
    ];
    // In units of 10⁻⁶.
    const model: MeasurementModel = ([a, b]) => 1e6 * (a! * a! + b! * b!);
    const drawing = simulate(model, inputs, trials, random.fork(`9.4 ${x1}`));
    const shortest = shortestCoverageInterval(drawing, 0.95);
    const second = propagate(model, asInputs(inputs), { secondOrder: true });
    const name = `x₁ = ${x1.toFixed(3)}`;
    power.number({
      what: `${name}: mean, 10⁻⁶`,
      expected: mean,
      got: drawing.mean,
      status: "closed form",
      within: Number(deviation) / 150,
      because: drawn,
    });
    power.number({
      what: `${name}: u, 10⁻⁶`,
      expected: deviation,
      got: drawing.standardUncertainty,
      status: "closed form",
      within: Number(deviation) / 100,
      because: drawn,
    });
    // The second-order law is exact for a quadratic of normal inputs.
    power.number({
      what: `${name}: u by the second order, 10⁻⁶`,
      expected: deviation,
      got: second.standardUncertainty,
      status: "closed form",
    });
    power.number({
      what: `${name}: shortest 95 % to, 10⁻⁶`,
      expected: String(interval[1]),
      got: shortest.high,
      status: "independent program",
      within,
      because: drawn,
    });
    power.number({
      what: `${name}: shortest 95 % from, 10⁻⁶`,
      expected: String(interval[0]),
      got: shortest.low,
      status: "independent program",
      within,
      because: drawn,
    });
  }
});

test("9.4, Y = X₁² + X₂², correlated by 0.9", () => {
  const covariance = Float64Array.from([25e-6, 22.5e-6, 22.5e-6, 25e-6]);
  const cases = [
    { x1: 0, mean: "50", deviation: "67.268" },
    { x1: 0.01, mean: "150", deviation: "120.520" },
    { x1: 0.05, mean: "2550", deviation: "504.505" },
  ] as const;
  for (const { x1, mean, deviation } of cases) {
    const draw = correlatedNormals([x1, 0], covariance, random.fork(`9.4 r ${x1}`));
    const drawing = simulateDraws(() => {
      const [a, b] = draw();
      return 1e6 * (a! * a! + b! * b!);
    }, trials);
    const name = `r = 0.9, x₁ = ${x1.toFixed(3)}`;
    power.number({
      what: `${name}: mean, 10⁻⁶`,
      expected: mean,
      got: drawing.mean,
      status: "closed form",
      within: Number(deviation) / 150,
      because: drawn,
    });
    power.number({
      what: `${name}: u, 10⁻⁶`,
      expected: deviation,
      got: drawing.standardUncertainty,
      status: "closed form",
      within: Number(deviation) / 100,
      because: drawn,
    });
  }
});

const gauge = openReference("[JCGM 101 §9.5]");

test("9.5, gauge block, every input with its own distribution", () => {
  const inputs: readonly InputDistribution[] = [
    { kind: "student", mean: 50_000_623, scale: 25, degreesOfFreedom: 18 },
    { kind: "student", mean: 215, scale: 6, degreesOfFreedom: 24 },
    { kind: "student", mean: 0, scale: 4, degreesOfFreedom: 5 },
    { kind: "student", mean: 0, scale: 7, degreesOfFreedom: 8 },
    { kind: "rectangular", low: 9.5e-6, high: 13.5e-6 },
    { kind: "normal", mean: -0.1, standardUncertainty: 0.2 },
    { kind: "arcsine", low: -0.5, high: 0.5 },
    { kind: "curvilinear-trapezoid", low: -1e-6, high: 1e-6, limitHalfWidth: 0.1e-6 },
    { kind: "curvilinear-trapezoid", low: -0.05, high: 0.05, limitHalfWidth: 0.025 },
  ];
  const nominal = 50_000_000;
  const model: MeasurementModel = ([ls, d, d1, d2, alpha, theta, swing, dAlpha, dTheta]) =>
    ls! + d! + d1! + d2! - ls! * (dAlpha! * (theta! + swing!) + alpha! * dTheta!) - nominal;
  const drawing = simulate(model, inputs, trials, random.fork("9.5"));
  const interval = shortestCoverageInterval(drawing, 0.99);
  gauge.number({ what: "deviation from 50 mm, nm", expected: "838", got: drawing.mean, status: "from memory" });
  gauge.number({ what: "u, nm", expected: "36", got: drawing.standardUncertainty, status: "published" });
  gauge.number({
    what: "u, nm, more digits",
    expected: "35.80",
    got: drawing.standardUncertainty,
    status: "independent program",
    within: 0.2,
    because: drawn,
  });
  gauge.number({
    what: "shortest 99 % interval from, nm",
    expected: "744.4",
    got: interval.low,
    status: "independent program",
    within: 3,
    because: drawn,
  });
  gauge.number({
    what: "shortest 99 % interval to, nm",
    expected: "931.7",
    got: interval.high,
    status: "independent program",
    within: 3,
    because: drawn,
  });
});
