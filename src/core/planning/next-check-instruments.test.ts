import { describe, expect, it } from "vitest";
import { drawTruth, plannedTimeline, simulateReadings, workedMachine } from "../../../tests/simulation/simulate.ts";
import { type Estimate, estimateTimeline } from "../fit/estimate.ts";
import type { Timeline } from "../fit/timeline.ts";
import type { LayoutId } from "../machine/description.ts";
import { createRandom } from "../numerics/random.ts";
import { demandFromGeneralWish } from "../work/catalogue.ts";
import type { Demand, DemandWish } from "../work/demand.ts";
import { judgeDemands } from "../work/judge.ts";
import type { WorkState } from "../work/work-state.ts";
import type { NextQuestion } from "./next-check-answer.ts";
import { standingOf } from "./next-check-deciding.ts";
import { instrumentVerdicts } from "./next-check-instruments.ts";

const tram: DemandWish = { kind: "tram", sizes: {}, limit: 0.1 };
const playOfX: DemandWish = { kind: "play", sizes: { axis: "x" }, limit: 0.2 };
const objects = new Map(
  ["square", "block", "cutter"].map((family) => [
    family,
    { id: family, kind: family, family, name: family, priors: {} },
  ]),
) as unknown as Timeline["objects"];

describe.each(["moving-gantry", "fixed-bridge"] as const)("what settles a demand on a %s", (layout) => {
  const first = read(layout, [{ check: "square-flip", objects: { square: "square" } }]);

  it("is named with its minutes, and leaves what was said once it has been read", () => {
    const [said] = instrumentVerdicts(asked(first, [tram]));
    expect(said).toMatchObject({ open: "unread", decides: true });
    const after = read(
      layout,
      said.by.map(({ check, setup, objects: with_ }) => ({
        check: check.id,
        options: setup.options as Readonly<Record<string, string | number>>,
        objects: with_,
      })),
    );
    const [then] = instrumentVerdicts(asked(after, [tram]));
    expect(then.standardUncertaintyNow / said.standardUncertaintyAfter).toBeGreaterThan(0.5);
    expect(then.standardUncertaintyNow / said.standardUncertaintyAfter).toBeLessThan(1.5);
    expect(said.sentence).toMatch(/; 15 min\) settles it: known to ± \S+ now, and to ± \S+ mm then\.$/);
  });

  it("is a reading even where what is usual would do", () => {
    const [said] = instrumentVerdicts(asked(first, [{ ...playOfX, limit: 2 }]));
    expect(said).toMatchObject({ open: "unread", decides: true });
    expect(said.by.length).toBeGreaterThan(0);
    expect(said.standardUncertaintyAfter).toBeLessThanOrEqual(said.standardUncertaintyNow / 2);
  });

  it("is what tells it from its limit where it lies close, and nothing where nothing does", () => {
    const learnt = read(layout, [{ check: "turnaround", options: { axis: "X" } }]);
    const index = learnt.problem.machine.parameterIndex.get("backlash.x") as number;
    const play = learnt.state[index];
    const sd = Math.sqrt(learnt.covariance[index * learnt.problem.machine.parameters.length + index]);
    const at = (limit: number) => instrumentVerdicts(asked(learnt, [{ ...playOfX, limit }]))[0];
    const [near, atIt] = [at(play + 1.3 * sd), at(play + 1e-4 * sd)];
    expect(near).toMatchObject({ open: "close", decides: true });
    expect(near.by.map(({ check }) => check.id)).toEqual(["turnaround"]);
    expect(near.sentence).toMatch(/^It lies close to its limit, .*brings? that down to .*if it stays where it is\.$/);
    expect(atIt).toMatchObject({ open: "close", decides: false, by: [] });
    expect(atIt.sentence).toMatch(/: no reading settles it\.$/);
    expect(at(play + 20 * sd)).toMatchObject({ open: "nothing", by: [] });
  });

  it("is to read again after moves that leave more to chance than is not known now", () => {
    const learnt = read(layout, [{ check: "turnaround", options: { axis: "X" } }]);
    const { state } = standingOf(learnt, false);
    const index = learnt.problem.machine.parameterIndex.get("backlash.x") as number;
    const limit = learnt.state[index] + 0.02;
    const covariance = Float64Array.from(state.covariance);
    covariance[index * state.scene.size + index] = 0.02 ** 2;
    const planned: WorkState = { ...state, covariance };
    const [said] = instrumentVerdicts(asked(learnt, [{ ...playOfX, limit }], planned));
    expect(said).toMatchObject({ open: "moves", by: [], would: null });
    expect(said.leftByMoves).toBeCloseTo(0.02, 2);
    expect(said.sentence).toMatch(/^The moves leave ± 0\.0\d+ mm of it to chance/);
  });
});

/** A machine of which these runs have been read, as a random truth makes them. */
function read(layout: LayoutId, plan: Parameters<typeof plannedTimeline>[1]): Estimate {
  const machine = workedMachine(layout);
  const { problem } = estimateTimeline(machine, { ...plannedTimeline(machine, plan), objects });
  const random = createRandom(12);
  return estimateTimeline(machine, simulateReadings(problem, drawTruth(problem, random), random));
}

function asked(estimate: Estimate, wishes: readonly DemandWish[], planned?: WorkState): NextQuestion {
  const demands = wishes.map((wish): Demand => {
    const demand = demandFromGeneralWish(estimate.problem.machine, wish);
    if (!demand.ok) throw new Error(wish.kind);
    return demand.value;
  });
  const state = planned ?? standingOf(estimate, false).state;
  const { results } = judgeDemands(state, demands, 2000);
  return { estimate, gate: { passed: true, checks: [] }, demands: results, ...(planned && { planned }) };
}
