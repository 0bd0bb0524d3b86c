import fc from "fast-check";
import { expect, test } from "vitest";
import { loadSolver } from "../../solver/highs.ts";
import type { Adjuster } from "../machine/adjusters/adjuster.ts";
import type { Demand } from "../work/demand.ts";
import type { Lever } from "./lever.ts";
import type { LinearDemand } from "./linear-demand.ts";
import { type ProgrammeParts, planProgramme } from "./plan-programme.ts";

const solve = await loadSolver();

/** Small plans as numbers alone: some joints with leaves or a screw of fixed clicks, some demands linear in them. */
interface SmallPlan {
  readonly joints: readonly { readonly minutes: number; readonly group: number | null }[];
  readonly demands: readonly {
    readonly spread: boolean;
    readonly values: readonly number[];
    readonly perJoint: readonly (readonly number[])[];
    readonly guard: number;
  }[];
  readonly leaves: ReadonlyMap<number, number>;
}

const share = fc.double({ min: -2, max: 2, noNaN: true }).map((x) => Math.round(x * 20) / 20);
const smallPlan: fc.Arbitrary<SmallPlan> = fc
  .record({ joints: fc.integer({ min: 1, max: 3 }), samples: fc.integer({ min: 1, max: 3 }) })
  .chain(({ joints, samples }) =>
    fc.record({
      joints: fc.array(fc.record({ minutes: fc.integer({ min: 1, max: 20 }), group: fc.constantFrom(null, 0, 1) }), {
        minLength: joints,
        maxLength: joints,
      }),
      demands: fc.array(
        fc.record({
          spread: fc.boolean(),
          values: fc.array(share, { minLength: samples, maxLength: samples }),
          perJoint: fc.array(fc.array(share, { minLength: joints, maxLength: joints }), {
            minLength: samples,
            maxLength: samples,
          }),
          guard: fc.constantFrom(0, 0.1, 0.3),
        }),
        { minLength: 1, maxLength: 3 },
      ),
      // One, two or three leaves of two thicknesses for all joints together.
      leaves: fc.constantFrom(
        new Map([[0.2, 1]]),
        new Map([
          [0.5, 1],
          [0.2, 1],
        ]),
        new Map([
          [0.5, 1],
          [0.2, 2],
        ]),
      ),
    }),
  );

test("costs what the best of all ways to lay the leaves costs, on every small plan", () => {
  fc.assert(
    fc.property(smallPlan, (plan) => {
      const { programme, key } = planProgramme(partsOf(plan));
      const solution = solve(programme, 10_000);
      const values = solution.values as Float64Array;
      const best = bruteForce(plan);
      // The search may stop within two hundredths of a minute, or a ten-thousandth, of the best.
      expect(Math.abs(solution.objective - best.cost)).toBeLessThanOrEqual(0.02 + 2e-4 * Math.abs(best.cost));
      const amounts = plan.joints.map((_, l) => key.amountOf(l, values));
      expect(costOf(plan, layingOf(plan, key, values))).toBeCloseTo(solution.objective, 3);
      for (const amount of amounts) expect(amount).toBeGreaterThanOrEqual(0);
    }),
    { seed: 11, numRuns: 150 },
  );
});

test("lays no leaf twice and none where a lever may not be touched", () => {
  fc.assert(
    fc.property(smallPlan, (plan) => {
      const { programme, key } = planProgramme({ ...partsOf(plan), only: new Set([0]) });
      const values = solve(programme, 10_000).values as Float64Array;
      const laying = layingOf(plan, key, values);
      laying.slice(1).forEach((leaves) => {
        expect(leaves).toEqual([]);
      });
      for (const [thickness, many] of plan.leaves)
        expect(laying.flat().filter((leaf) => leaf === thickness).length).toBeLessThanOrEqual(many);
    }),
    { seed: 12, numRuns: 60 },
  );
});

function partsOf(plan: SmallPlan): ProgrammeParts {
  const none = new Float64Array(plan.joints.length);
  return {
    levers: plan.joints.map(leverFor),
    reference: none,
    demands: plan.demands.map(({ spread, values, perJoint, guard }, k): LinearDemand => {
      const samples = values.map((value, i) => ({
        value,
        perLever: Float64Array.from(perJoint[i]),
        guard: spread ? 0 : guard,
        touched: none,
      }));
      return { demand: demandFor(spread, k), areas: [{ samples, guard: spread ? guard : 0, touched: none }] };
    }),
    skimDepth: null,
    stock: plan.leaves,
    packing: "whole",
  };
}

function leverFor({ minutes, group }: SmallPlan["joints"][number], l: number): Lever {
  const readAgain = group === null ? null : { group: `group ${group}`, checks: [], minutes: 7 };
  const adjuster = { id: `joint ${l}`, kind: "add", minutes, cure: "soft", readAgain } as unknown as Adjuster;
  return {
    adjuster,
    change: new Float64Array(0),
    frees: new Float64Array(0),
    from: 0,
    to: 2,
    places: [{ place: "only", sign: 1, nowMm: 0, mostMm: 2 }],
  };
}

function demandFor(spread: boolean, k: number): Demand {
  return {
    id: `demand ${k}`,
    kind: spread ? "depth-spread" : "tram",
    title: "",
    unit: "mm",
    limit: 1,
    form: spread ? "spread" : "largest",
    againstBed: false,
    samples: () => [],
    meaning: () => "",
  };
}

type Laying = readonly (readonly number[])[];

function layingOf(plan: SmallPlan, key: ReturnType<typeof planProgramme>["key"], values: Float64Array): Laying {
  return plan.joints.map((_, l) => key.leavesOf(l, values).flatMap(({ layMm }) => layMm));
}

/** Every way to lay some of the leaves at some of the joints; a leaf that is not used lies at no joint. */
function bruteForce(plan: SmallPlan): { readonly cost: number } {
  const leaves = [...plan.leaves].flatMap(([thickness, many]) => Array<number>(many).fill(thickness));
  const places = plan.joints.length + 1;
  let cost = Number.POSITIVE_INFINITY;
  for (let way = 0; way < places ** leaves.length; way++) {
    const laying: number[][] = plan.joints.map(() => []);
    let rest = way;
    for (const leaf of leaves) {
      const at = rest % places;
      rest = Math.floor(rest / places);
      if (at < plan.joints.length) laying[at].push(leaf);
    }
    cost = Math.min(cost, costOf(plan, laying));
  }
  return { cost };
}

/** What the programme says a plan costs, written down once more from its words. */
function costOf({ joints, demands }: SmallPlan, laying: Laying): number {
  const amounts = laying.map((leaves) => leaves.reduce((sum, leaf) => sum + leaf, 0));
  const touched = joints.filter((_, l) => laying[l].length > 0);
  let cost = touched.reduce((sum, { minutes }) => sum + minutes, 0);
  cost += 7 * new Set(touched.flatMap(({ group }) => (group === null ? [] : [group]))).size;
  cost += 0.05 * laying.flat().length;
  for (const { spread, values, perJoint, guard } of demands) {
    const moved = values.map((value, i) => value + perJoint[i].reduce((sum, s, l) => sum + s * amounts[l], 0));
    const size = spread ? Math.max(...moved) - Math.min(...moved) : Math.max(...moved.map(Math.abs));
    const over = size + guard - 1;
    cost += over > 0 ? 3e3 * Math.min(over, guard) + 1e4 * Math.max(0, over - guard) : -4 * Math.min(0.6, -over);
  }
  return cost;
}
