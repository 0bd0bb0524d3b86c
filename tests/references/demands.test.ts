import { test } from "vitest";
import { skewFromDiagonalsRad } from "../../src/core/geometry/skewed-rectangle.ts";
import { valuesOnly } from "../../src/core/machine/kinematics.ts";
import { demandFromWish } from "../../src/core/work/catalogue.ts";
import { type Demand, type DemandKindId, type DemandSizes, reduceSamples } from "../../src/core/work/demand.ts";
import { judgeDemands } from "../../src/core/work/judge.ts";
import { workedMachine } from "../simulation/simulate.ts";
import { workStateWith } from "../simulation/work-state-with.ts";
import { openReference } from "./reference.ts";

const machine = workedMachine("moving-gantry");

function made(kind: DemandKindId, sizes: DemandSizes = {}, limit = 1): Demand {
  const outcome = demandFromWish(machine, { kind, sizes, limit });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

/** The demand's number on a machine that is out in these modes alone. */
function numberOf(modes: Readonly<Record<string, number>>, kind: DemandKindId, sizes: DemandSizes): number {
  const demand = made(kind, sizes);
  const state = Float64Array.from(machine.parameters, (id) => modes[id] ?? 0);
  return reduceSamples(
    demand,
    demand.samples(valuesOnly(machine, state)).map(({ value }) => value),
  );
}

test("a square out of square, by its diagonals", () => {
  const rectangle = openReference("[Skewed rectangle]");
  const difference = numberOf({ "gantry.rack": 2 }, "diagonals", { widthMm: 300, heightMm: 300 });
  rectangle.number({
    what: "demand on diagonals: 300 square at 2 mm/m, √2·b·γ/1000, mm",
    expected: "0.8485",
    got: difference,
    status: "closed form",
  });
  // 0.7 and 0.5 mm over 300 are 1.65 and 1.18 mm/m.
  for (const [limit, skew] of [
    [0.7, "1.65"],
    [0.5, "1.18"],
  ] as const) {
    const diagonal = 300 * Math.SQRT2;
    const gamma = skewFromDiagonalsRad(300, 300, {
      fromOrigin: diagonal + limit / 2,
      across: diagonal - limit / 2,
    });
    rectangle.number({
      what: `skew of a 300 square whose diagonals differ by ${limit} mm, mm/m`,
      expected: skew,
      got: 1000 * (gamma ?? Number.NaN),
      status: "closed form",
    });
    const back = numberOf({ "gantry.rack": 1000 * (gamma ?? Number.NaN) }, "diagonals", {
      widthMm: 300,
      heightMm: 300,
    });
    rectangle.number({
      what: "  and the diagonals of the machine that has it, mm",
      expected: limit.toFixed(3),
      got: back,
      status: "closed form",
    });
  }
});

test("a circle by least squares", () => {
  const circular = openReference("[ISO 230-4 §3]");
  const firstOrder = { within: 2e-4, because: "first order" } as const;
  const circle = (modes: Readonly<Record<string, number>>) => numberOf(modes, "circle", { radiusMm: 100 });
  circular.number({
    what: "demand on a circle of 100 mm: skew 1 mm/m, G = R·γ, mm",
    expected: "0.1000",
    got: circle({ "gantry.rack": 1 }),
    status: "closed form",
    ...firstOrder,
  });
  circular.number({
    what: "demand on a circle of 100 mm: scales apart by 1 mm/m, mm",
    expected: "0.1000",
    got: circle({ "scale.x": 1 }),
    status: "closed form",
    ...firstOrder,
  });
  circular.number({
    what: "demand on a circle of 100 mm: lost motion of 0.04 mm, mm",
    expected: "0.0400",
    got: circle({ "backlash.y": 0.04 }),
    status: "closed form",
  });
});

test("what a cutter leaves", () => {
  const cutter = openReference("[Cutter geometry]");
  const stroke = (angleDegrees: number) =>
    numberOf({ "bed.tilt.x": 1 / 0.3 }, "stroke-spread", { widthMm: 300, depthMm: 100, angleDegrees });
  cutter.number({
    what: "width of a stroke for 1 mm of depth, 90°, mm",
    expected: "2.000",
    got: stroke(90),
    status: "closed form",
  });
  cutter.number({
    what: "width of a stroke for 1 mm of depth, 60°, mm",
    expected: "1.155",
    got: stroke(60),
    status: "closed form",
  });
  cutter.number({
    what: "ridge of passes 15 mm apart, axis leaning by 2 mm/m, mm",
    expected: "0.0300",
    got: numberOf({ "spindle.tilt.side": 2 }, "ridge", { cutterMm: 25, stepoverMm: 15 }),
    status: "closed form",
  });
  cutter.number({
    what: "tram over 200 of the same axis, mm",
    expected: "0.4000",
    got: numberOf({ "spindle.tilt.side": 2 }, "tram", { overMm: 200 }),
    status: "closed form",
  });
});

// The examples are of one quantity against one limit or two. A demand limits the size of a number on both sides of
// nothing, so that each is moved: two limits to either side of nothing, one so far that the other plays no part.
test("examples of conformity, by draws", () => {
  const conformity = openReference("[JCGM 106 §7]");
  const draws = 200_000;
  const chance = (mean: number, sd: number, limit: number) => {
    const state = workStateWith(machine, { "scale.x": mean }, { "scale.x": sd });
    return judgeDemands(state, [made("scale", { axis: "x" }, limit)], draws).results[0].probability;
  };
  const byDraws = { within: 0.0035, because: "200,000 draws" } as const;
  conformity.number({
    what: "demand: motor oil, 13.6 ± 1.8 within 12.5 to 16.3",
    expected: "0.6626",
    got: chance(13.6 - 14.4, 1.8, 1.9),
    status: "independent program",
    ...byDraws,
  });
  conformity.number({
    what: "demand: Zener diode, −5.47 ± 0.05 at most −5.40",
    expected: "0.9192",
    got: chance(10 - 0.07, 0.05, 10),
    status: "independent program",
    ...byDraws,
  });
  conformity.number({
    what: "demand: container, 509.7 ± 8.6 at least 490",
    expected: "0.9890",
    got: chance(200 - 19.7, 8.6, 200),
    status: "independent program",
    ...byDraws,
  });
});
