import { describe, expect, it } from "vitest";
import { questionAfterOneRound } from "../../../tests/simulation/closed-loop.ts";
import { workStateWith } from "../../../tests/simulation/work-state-with.ts";
import { loadSolver } from "../../solver/highs.ts";
import { adjustersOf } from "../machine/adjusters/catalogue.ts";
import { demandFromWish } from "../work/catalogue.ts";
import type { Demand, DemandWish } from "../work/demand.ts";
import { judgeDemands } from "../work/judge.ts";
import type { WorkState } from "../work/work-state.ts";
import { findMoves, type Judge } from "./find-moves.ts";
import { withFullCorrections } from "./full-correction.ts";
import type { PlanQuestion } from "./plan.ts";
import { planMoves } from "./planner.ts";

const solve = await loadSolver();

describe.each(["moving-gantry", "fixed-bridge"] as const)("numbers of the controller on a %s", (layout) => {
  const { state, adjusters } = questionAfterOneRound(layout, 5_000_003);
  const { machine } = state.scene;
  const made = (wish: DemandWish): Demand => {
    const demand = demandFromWish(machine, wish);
    if (!demand.ok) throw new Error(wish.kind);
    return demand.value;
  };
  const asked = (at: WorkState, ...wishes: readonly DemandWish[]): PlanQuestion => ({
    ...{ state: at, demands: wishes.map(made), adjusters },
    ...{ packingNow: new Map(), stockMm: [], locks: new Set(), willSkim: false },
  });
  const judgeOf =
    ({ demands }: PlanQuestion): Judge =>
    (at) =>
      judgeDemands(at, demands, 2000);
  const scaleOf = (at: WorkState, axis: string) =>
    at.scene.state[machine.parameterIndex.get(`scale.${axis}`) as number];

  it("are brought to what cures the estimate, where the search stopped within the limit", () => {
    const question = asked(workStateWith(machine, { "scale.x": 2.4 }, { "scale.x": 0.05 }), {
      ...{ kind: "scale", sizes: { axis: "x" }, limit: 1 },
    });
    const found = findMoves(question, solve);
    expect(scaleOf(found.after, "x")).toBeGreaterThan(0.1);
    const full = withFullCorrections(question, found, judgeOf(question));
    expect(full.moves.map(({ lever }) => lever.adjuster.id)).toEqual(["steps.x"]);
    expect(scaleOf(full.after, "x")).toBeCloseTo(0, 9);
    const plan = planMoves(question, solve);
    expect(scaleOf(plan.after, "x")).toBeCloseTo(0, 9);
    expect(plan.moves.at(-1)?.amount).toBeCloseTo(-2.4, 9);
  });

  it("go no further than they reach", () => {
    const question = asked(workStateWith(machine, { "scale.y": 60 }, { "scale.y": 0.05 }), {
      ...{ kind: "scale", sizes: { axis: "y" }, limit: 20 },
    });
    const [{ amount, lever }] = withFullCorrections(question, findMoves(question, solve), judgeOf(question)).moves;
    expect(lever.adjuster.id).toBe("steps.y");
    expect(amount).toBe(lever.from);
  });

  it("stay where they were found when the whole correction would spoil another demand", () => {
    // What play takes off a length, or adds to it, is made up for by a scale: the whole correction uncovers it.
    const size = { kind: "size", sizes: { lengthMm: 200 }, limit: 0.25 } as const;
    const with_ = (scale: number) =>
      workStateWith(
        machine,
        { "scale.x": scale, "backlash.x": 0.3, "backlash.y": 0 },
        { "scale.x": 0.01, "backlash.x": 0.005 },
      );
    const judgeSize = judgeOf(asked(with_(0), size));
    const [plus, none] = [1, 0].map((scale) => judgeSize(with_(scale)).results[0].value);
    const at = with_(plus < none ? 3 : -3);
    const free = asked(at, { kind: "scale", sizes: { axis: "x" }, limit: 2 }, size);
    const question = { ...free, locks: new Set(adjusters.map(({ id }) => id).filter((id) => id !== "steps.x")) };
    const judge = judgeOf(question);
    const found = findMoves(question, solve, judge);
    expect(found.moves.map(({ lever }) => lever.adjuster.id)).toEqual(["steps.x"]);
    expect(Math.abs(scaleOf(found.after, "x"))).toBeGreaterThan(0.3);
    expect(withFullCorrections(question, found, judge)).toEqual(found);
  });

  it("are left alone where the plan does not touch them, and everything else stays as it was found", () => {
    const question = questionAfterOneRound(layout, 5_000_001);
    const found = findMoves(question, solve);
    const full = withFullCorrections(question, found, judgeOf(question));
    expect(full.moves.map(({ lever }) => lever.adjuster.id)).toEqual(found.moves.map(({ lever }) => lever.adjuster.id));
    for (const [m, { lever, amount }] of full.moves.entries()) {
      if (!lever.adjuster.id.startsWith("steps.")) expect(amount).toBe(found.moves[m].amount);
    }
    const still = { ...found, moves: found.moves.filter(({ lever }) => !lever.adjuster.id.startsWith("steps.")) };
    expect(withFullCorrections(question, still, judgeOf(question))).toBe(still);
    expect(adjustersOf(machine).filter(({ id }) => id.startsWith("steps."))).toHaveLength(3);
  });
});
