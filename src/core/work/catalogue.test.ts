import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { centralDifferences, disagreement, randomState } from "../../../tests/simulation/random-state.ts";
import { workedGantry, workedMachine } from "../../../tests/simulation/simulate.ts";
import { wordsForDiagnostic } from "../base/diagnostic-words.ts";
import { depthSpread } from "../findings/over-bed.ts";
import { largestInSize, tramFindings } from "../findings/tram.ts";
import type { Scene } from "../machine/kinematics.ts";
import { type Machine, machineFromDescription, nominalState } from "../machine/machine.ts";
import { createRandom } from "../numerics/random.ts";
import { demandFromGeneralWish, demandFromWish, demandKinds } from "./catalogue.ts";
import { type Demand, type DemandKindId, type DemandSizes, type DemandWish, reduceSamples } from "./demand.ts";
import type { NumberSize } from "./demand-kind.ts";

const layouts = ["moving-gantry", "fixed-bridge"] as const;

function made(machine: Machine, wish: DemandWish): Demand {
  const outcome = demandFromWish(machine, wish);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
  return outcome.value;
}

const usual = (kind: DemandKindId, sizes: DemandSizes = {}): DemandWish => ({ kind, sizes, limit: 0.3 });

function gradientScene(machine: Machine, state: Float64Array, skim: Float64Array | null): Scene {
  const count = machine.parameters.length;
  return { machine, state, size: skim ? 2 * count : count, skim: skim && { state: skim, column: count } };
}

describe.each(layouts)("on a %s", (layout) => {
  const machine = workedMachine(layout);
  const count = machine.parameters.length;

  describe.each(demandKinds)("$id", (kind) => {
    test.each([false, true])("has samples with the gradient of central differences, bed skimmed: %s", (skimmed) => {
      const random = createRandom(layout === "moving-gantry" ? 51 : 52);
      const demand = made(machine, usual(kind.id));
      const state = randomState(machine, random);
      const skim = skimmed ? randomState(machine, random) : null;
      const samples = demand.samples(gradientScene(machine, state, skim));
      const at = skim ? Float64Array.from([...state, ...skim]) : state;
      const valuesAt = (columns: Float64Array) => {
        const then = skim && { state: columns.slice(count), column: count };
        return demand.samples({ machine, state: columns.slice(0, count), size: 0, skim: then });
      };
      // One call gives all samples: differences column by column, not sample by sample.
      const differences = samples.map(() => new Float64Array(at.length));
      for (let column = 0; column < at.length; column++) {
        const step = 1e-2;
        const [up, down] = [step, -step].map((by) => {
          const moved = Float64Array.from(at);
          moved[column] += by;
          return valuesAt(moved);
        });
        samples.forEach((_, i) => {
          differences[i][column] = (up[i].value - down[i].value) / (2 * step);
        });
      }
      // Over a skimmed bed a place is found by two corrections, of which the gradient knows nothing.
      const most = skimmed ? 3e-5 : 1e-7;
      samples.forEach(({ gradient }, i) => {
        expect(disagreement(gradient, differences[i])).toBeLessThan(most);
      });
    });

    test("is against the bed exactly when the shape of the bed, or what skimming left, changes its samples", () => {
      const random = createRandom(53);
      const demand = made(machine, usual(kind.id));
      const scene = gradientScene(machine, randomState(machine, random), null);
      const ofBed = machine.parameters.flatMap((id, i) => (/^bed\.(tilt|twist|dome)/.test(id) ? [i] : []));
      const hangsOnBed = demand.samples(scene).some(({ gradient }) => ofBed.some((i) => Math.abs(gradient[i]) > 1e-9));
      expect(demand.againstBed).toBe(hangsOnBed);
    });

    test("has as many samples on every machine of the layout, and groups that part them without a rest", () => {
      const random = createRandom(54);
      const demand = made(machine, usual(kind.id));
      const counts = [nominalState(machine), randomState(machine, random), randomState(machine, random, 5)].map(
        (state) => demand.samples(gradientScene(machine, state, null)).length,
      );
      expect(new Set(counts).size).toBe(1);
      if (!demand.groups) return;
      expect(demand.groups[0][0]).toBe(0);
      expect(demand.groups.at(-1)?.[1]).toBe(counts[0]);
      demand.groups.slice(1).forEach(([from], i) => {
        expect(from).toBe(demand.groups?.[i][1]);
      });
    });

    test("says in one sentence what a value means, and in its title for what sizes", () => {
      const demand = made(machine, usual(kind.id));
      expect(demand.meaning(0.137)).toMatch(/^[A-Z].*0\.137.*\.$/);
      expect(demand.meaning(0.137)).not.toMatch(/\. [A-Z]|error|please|!/i);
      for (const number of demand.id.match(/\d+(\.\d+)?/g) ?? []) expect(demand.title).toContain(number);
      expect(demand.unit).toBe(kind.unit);
      expect(demand.kind).toBe(kind.id);
    });
  });

  test("the spread of depth over the whole bed is the finding's", () => {
    const random = createRandom(55);
    const demand = made(machine, usual("depth-spread"));
    for (let trial = 0; trial < 10; trial++) {
      const scene = gradientScene(machine, randomState(machine, random), null);
      const numbers = (samples: readonly { value: number }[]) => samples.map(({ value }) => value);
      const finding = depthSpread.reduce(numbers(depthSpread.samples(scene)), machine);
      expect(reduceSamples(demand, numbers(demand.samples(scene)))).toBeCloseTo(finding, 12);
    }
  });

  test("the tram over 200 is the larger of the findings'", () => {
    const random = createRandom(56);
    const demand = made(machine, usual("tram"));
    const scene = gradientScene(machine, randomState(machine, random), null);
    const found = tramFindings.map(({ samples }) => Math.abs(largestInSize(samples(scene).map(({ value }) => value))));
    const values = demand.samples(scene).map(({ value }) => value);
    expect(reduceSamples(demand, values)).toBeCloseTo(Math.max(...found), 12);
  });
});

describe("a wish", () => {
  const machine = workedMachine("moving-gantry");
  const { Lx, Ly, Lz } = machine.dimensions;
  const codesOf = (wish: DemandWish) => demandFromWish(machine, wish).diagnostics.map(({ code }) => code);

  test.each([
    ["a kind that there is not", { ...usual("tram"), kind: "taste" as DemandKindId }, "demand-kind-unknown"],
    ["a size that the kind does not have", usual("tram", { widthMm: 200 }), "demand-size-unknown"],
    ["a size that is no number", usual("tram", { overMm: "far" }), "demand-size-impossible"],
    ["a size that is not a number at all", usual("tram", { overMm: Number.NaN }), "demand-size-impossible"],
    ["a size below nothing", usual("circle", { radiusMm: -10 }), "demand-size-impossible"],
    ["metres for millimetres", usual("sides", { widthMm: 0.5 }), "demand-size-impossible"],
    ["a width beyond the travel", usual("depth-spread", { widthMm: Lx + 1 }), "demand-size-beyond-reach"],
    ["a circle beyond the travel", usual("circle", { radiusMm: Ly / 2 + 1 }), "demand-size-beyond-reach"],
    ["a depth beyond the travel of Z", usual("wall-lean", { depthMm: Lz + 1 }), "demand-size-beyond-reach"],
    ["a swing beyond the bed", usual("tram", { overMm: 800 }), "demand-size-beyond-reach"],
    ["a stepover wider than its cutter", usual("ridge", { cutterMm: 10, stepoverMm: 11 }), "demand-size-beyond-reach"],
    ["a length that fits along neither axis", usual("size", { lengthMm: Lx + 1 }), "demand-size-beyond-reach"],
    [
      "a piece that reaches out of the travel where it is put",
      { ...usual("diagonals", { widthMm: 300, heightMm: 100 }), place: { x: 100, y: 250 } },
      "demand-size-beyond-reach",
    ],
    ["an axis that there is not", usual("play", { axis: "a" }), "demand-answer-unknown"],
    ["a number for an axis", usual("play", { axis: 1 }), "demand-answer-unknown"],
    ["something cut that is neither piece nor pocket", usual("size", { cut: "slot" }), "demand-answer-unknown"],
    ["a place outside the travel", { ...usual("tram"), place: { x: -1, y: 10 } }, "demand-place-outside"],
    ["a place that is no place", { ...usual("tram"), place: { x: Number.NaN, y: 10 } }, "demand-place-outside"],
    ["a place for what is the same everywhere", { ...usual("runout"), place: { x: 10, y: 10 } }, "demand-place-idle"],
    ["no room at all", { ...usual("tram"), limit: 0 }, "demand-limit-impossible"],
    ["less than no room", { ...usual("tram"), limit: -0.1 }, "demand-limit-impossible"],
    ["a limit that is no number", { ...usual("tram"), limit: Number.NaN }, "demand-limit-impossible"],
    ["no limit at all", { ...usual("tram"), limit: Number.POSITIVE_INFINITY }, "demand-limit-impossible"],
  ] as const)("with %s is refused", (_, wish, code) => {
    expect(codesOf(wish)).toEqual([code]);
    const [{ data }] = demandFromWish(machine, wish).diagnostics;
    const { what, expected, remedy } = wordsForDiagnostic(code, data);
    for (const words of [what, expected, remedy]) {
      expect(words).not.toMatch(/undefined|NaN/);
      expect(words.length).toBeGreaterThan(5);
    }
  });

  test("that reaches just to the edge of the travel is met", () => {
    expect(codesOf(usual("sides", { widthMm: Lx, heightMm: Ly }))).toEqual([]);
    expect(codesOf(usual("circle", { radiusMm: Ly / 2 }))).toEqual([]);
  });

  test("for a length that fits along one axis only is judged along the other as far as there is room", () => {
    const demand = made(machine, usual("size", { lengthMm: 550, cut: "both" }));
    expect(demand.title).toBe("Size of 550 along X and 500 along Y, piece and pocket");
  });

  test("for one place is judged there and not at five", () => {
    const there = made(machine, { ...usual("tram"), place: { x: 120, y: 80 } });
    expect(there.samples(gradientScene(machine, nominalState(machine), null))).toHaveLength(2);
    expect(there.id).toBe("tram 200 at x 120, y 80");
    expect(there.title).toBe("Cutter’s axis to the bed over 200 at x 120, y 80");
    expect(there.meaning(0.1)).not.toContain("five places");
  });

  test("without sizes takes what is usual, cut down to a small machine and said in the title", () => {
    const small = machineFromDescription({
      ...workedGantry,
      travelMm: { x: 110, y: 90, z: 30 },
      railPlanesMm: { left: -60, right: 170 },
    });
    const titles = Object.fromEntries(demandKinds.map(({ id }) => [id, made(small, usual(id)).title]));
    expect(titles).toMatchObject({
      circle: "Circular deviation of a circle of radius 45",
      squareness: "Squareness of 90 square",
      "stroke-spread": "Spread of a 60° stroke’s width over 110 × 90",
      "plunge-lean": "Lean of a plunge through 30",
      tram: "Cutter’s axis to the bed over 170",
      size: "Size of 100 along X and 90 along Y, a piece",
      ridge: "Ridges of a 25 mm cutter stepped over by 15",
    });
  });

  // Middles within the travel, sizes from what is usual of work to what no machine has room for.
  const anyWish = fc.constantFrom(...demandKinds).chain((kind) => {
    const sizes = fc.record(
      Object.fromEntries(
        kind.sizes.map((size) => [
          size.key,
          "answers" in size ? fc.constantFrom(...size.answers) : fc.double({ min: size.from, max: 700, noNaN: true }),
        ]),
      ),
      { requiredKeys: [] },
    );
    const place = fc.record({
      x: fc.double({ min: 0, max: Lx, noNaN: true }),
      y: fc.double({ min: 0, max: Ly, noNaN: true }),
    });
    return fc.record(
      {
        kind: fc.constant(kind.id),
        sizes: sizes as fc.Arbitrary<DemandSizes>,
        limit: fc.double({ min: 1e-3, max: 5, noNaN: true }),
        ...(kind.place === "none" ? {} : { place }),
      },
      { requiredKeys: ["kind", "sizes", "limit"] },
    ) as fc.Arbitrary<DemandWish>;
  });

  test("is met, or refused for its room or its range, and for nothing else", () => {
    const seen = { met: 0, refused: 0 };
    fc.assert(
      fc.property(anyWish, (wish) => {
        const outcome = demandFromWish(machine, wish);
        if (outcome.ok) seen.met += 1;
        else seen.refused += 1;
        const codes = outcome.diagnostics.map(({ code }) => code);
        for (const code of codes) expect(["demand-size-beyond-reach", "demand-size-impossible"]).toContain(code);
        expect(outcome.ok).toBe(codes.length === 0);
        if (outcome.ok) expect(outcome.value.limit).toBe(wish.limit);
      }),
      { seed: 61, numRuns: 1500 },
    );
    expect(Math.min(seen.met, seen.refused)).toBeGreaterThan(200);
  });

  test("has one id however often it is made, and another with other sizes", () => {
    const ids = new Map<string, string>();
    fc.assert(
      fc.property(anyWish, (wish) => {
        const outcome = demandFromWish(machine, wish);
        if (!outcome.ok) return;
        const { id, title } = outcome.value;
        expect(made(machine, { ...wish, limit: 1 }).id).toBe(id);
        expect(ids.get(id) ?? title).toBe(title);
        ids.set(id, title);
      }),
      { seed: 62, numRuns: 500 },
    );
    expect(ids.size).toBeGreaterThan(90);
  });

  test("for machines in general is cut down to what there is room for, and left alone where there is", () => {
    fc.assert(
      fc.property(anyWish, (wish) => {
        const outcome = demandFromGeneralWish(machine, wish);
        const own = demandFromWish(machine, wish);
        if (own.ok) expect(outcome.ok && outcome.value.id).toBe(own.value.id);
        // Where the middle lies so near an edge that there is no room worth the name, nothing is made.
        else if (!outcome.ok) expect(outcome.diagnostics[0].code).toBe("demand-size-impossible");
        else {
          const kind = demandKinds.find(({ id }) => id === wish.kind);
          const numbers = kind?.sizes.filter((size): size is NumberSize => !("answers" in size)) ?? [];
          expect(numbers.some(({ key }) => wish.sizes[key] !== undefined)).toBe(true);
        }
      }),
      { seed: 63, numRuns: 1000 },
    );
  });

  test("at a place has the samples of the middle moved there, on a machine that is the same everywhere", () => {
    // Scale, skew and tilt alone are the same everywhere.
    const modes: Readonly<Record<string, number>> = {
      "scale.x": 2,
      "gantry.rack": 1,
      "spindle.tilt.side": 2,
      "bed.tilt.y": 1,
    };
    const state = Float64Array.from(machine.parameters, (id) => modes[id] ?? 0);
    const scene = gradientScene(machine, state, null);
    const sizes = { circle: { radiusMm: 40 }, "hole-pattern": { sizeMm: 80 }, squareness: { overMm: 80 } } as const;
    for (const kind of ["circle", "hole-pattern", "squareness"] as const) {
      const numberAt = (place: { x: number; y: number }) => {
        const demand = made(machine, { ...usual(kind, sizes[kind]), place });
        return reduceSamples(
          demand,
          demand.samples(scene).map(({ value }) => value),
        );
      };
      expect(numberAt({ x: 100, y: 380 })).toBeCloseTo(numberAt({ x: 450, y: 90 }), 9);
    }
  });
});

test("a gradient that is wrong in one column by a thousandth is seen by central differences", () => {
  const machine = workedMachine("moving-gantry");
  const state = randomState(machine, createRandom(57));
  const demand = made(machine, usual("diagonals"));
  const [{ gradient }] = demand.samples(gradientScene(machine, state, null));
  const differences = centralDifferences(
    (at) => demand.samples({ machine, state: at, size: 0, skim: null })[0].value,
    state,
  );
  const wrong = Float64Array.from(gradient);
  wrong[machine.parameterIndex.get("gantry.rack") as number] += 1e-3;
  expect(disagreement(gradient, differences)).toBeLessThan(1e-7);
  expect(disagreement(wrong, differences)).toBeGreaterThan(5e-4);
});
