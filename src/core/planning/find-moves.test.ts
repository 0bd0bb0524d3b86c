import { describe, expect, test } from "vitest";
import { questionAfterOneRound } from "../../../tests/simulation/closed-loop.ts";
import { loadSolver } from "../../solver/highs.ts";
import type { LayoutId } from "../machine/description.ts";
import { reduceSamples } from "../work/demand.ts";
import { judgeDemands } from "../work/judge.ts";
import { findMoves } from "./find-moves.ts";
import type { PlanQuestion } from "./plan.ts";
import { plannedState } from "./planned-state.ts";
import { planMoves } from "./planner.ts";

const solve = await loadSolver();
const layouts: readonly LayoutId[] = ["moving-gantry", "fixed-bridge"];

describe.each(layouts)("a plan for a random machine of the layout %s", (layout) => {
  const question = questionAfterOneRound(layout, 5_000_001);
  const found = findMoves(question, solve);

  test("moves nothing beyond its reach", () => {
    expect(found.moves.length).toBeGreaterThan(0);
    for (const { lever, amount } of found.moves) {
      if (lever.adjuster.kind === "assign") continue;
      expect(amount).toBeGreaterThanOrEqual(lever.from - 1e-9);
      expect(amount).toBeLessThanOrEqual(lever.to + 1e-9);
    }
  });

  test("lays leaves that are at hand, each once, and what they come to is the amount", () => {
    expectLeavesFromStock(question, found.moves);
  });

  test("says what the exact model says of the state it leads to", () => {
    const after = plannedState(question.state, found);
    for (const { demand, value } of judgeDemands(after, question.demands, 100).results) {
      const exact = reduceSamples(
        demand,
        demand.samples(after.scene).map((sample) => sample.value),
      );
      expect(value).toBeCloseTo(exact, 9);
    }
  });

  test("is the same when it is asked for again", () => {
    const again = findMoves(question, solve);
    expect(again.moves.map(({ lever, amount }) => [lever.adjuster.id, amount])).toEqual(
      found.moves.map(({ lever, amount }) => [lever.adjuster.id, amount]),
    );
  });

  test("leaves alone what is locked", () => {
    const locks = new Set(found.moves.slice(0, 3).map(({ lever }) => lever.adjuster.id));
    const around = findMoves({ ...question, locks }, solve);
    for (const { lever } of around.moves) expect(locks.has(lever.adjuster.id)).toBe(false);
  });

  test("packs with what little there is, and with nothing where there is nothing", () => {
    for (const stockMm of [[], [0.2, 0.05]]) {
      const poor = { ...question, stockMm };
      expectLeavesFromStock(poor, findMoves(poor, solve).moves);
    }
  });

  test("moves nothing at all with everything locked, and says that it is out of reach", () => {
    const locks = new Set(question.adjusters.map(({ id }) => id));
    const plan = planMoves({ ...question, locks }, solve);
    expect(plan.moves).toEqual([]);
    expect(plan.answer).toBe("out of reach");
    expect(plan.demands.some(({ cure }) => cure?.kind === "unlock" || cure?.kind === "skim")).toBe(true);
  });

  test("goes upstream first and skims last", () => {
    const { moves, minutes } = planMoves({ ...question, willSkim: true }, solve);
    const levels = moves.map(({ adjuster }) => adjuster.level);
    expect(levels).toEqual([...levels].sort((a, b) => a - b));
    expect(moves[moves.length - 1].adjuster.kind).toBe("skim");
    const groups = new Map(moves.flatMap(({ adjuster: { readAgain: r } }) => (r ? [[r.group, r.minutes]] : [])));
    const joints = moves.reduce((sum, { adjuster }) => sum + adjuster.minutes, 0);
    expect(minutes).toBe(joints + [...groups.values()].reduce((sum, m) => sum + Number(m), 0));
  });

  test("never skims where skimming is ruled out", () => {
    expect(findMoves({ ...question, willSkim: false }, solve).skim).toBe(false);
  });

  test("proposes nothing for a demand that no machine can meet, but for the others", () => {
    const [first, ...rest] = question.demands;
    const plan = planMoves({ ...question, demands: [{ ...first, limit: 1e-6 }, ...rest] }, solve);
    expect(plan.demands[0].after.verdict).not.toBe("within");
    expect(plan.demands[0].cure).not.toBeNull();
    expect(plan.demands.slice(1).filter(({ excess }) => excess === 0).length).toBeGreaterThan(0);
  });
});

test.each(layouts)("nothing is moved where nothing has been read (%s)", (layout) => {
  const { state, ...question } = questionAfterOneRound(layout, 5_000_002);
  const { machine } = state.scene;
  const count = machine.parameters.length;
  const covariance = new Float64Array(count * count);
  machine.modes.forEach(({ priorSd }, i) => {
    covariance[i * count + i] = priorSd ** 2;
  });
  const usual = new Float64Array(count);
  const unread = { scene: { ...state.scene, state: usual }, covariance };
  const plan = planMoves({ ...question, state: unread, willSkim: false }, solve);
  expect(plan.moves).toEqual([]);
  expect(plan.answer).toBe("measure first");
});

function expectLeavesFromStock(question: PlanQuestion, moves: ReturnType<typeof findMoves>["moves"]): void {
  const laid = moves.flatMap(({ leaves }) => leaves.flatMap(({ layMm }) => layMm));
  for (const thickness of new Set(laid)) {
    const atHand = question.stockMm.filter((leaf) => leaf === thickness).length;
    expect(laid.filter((leaf) => leaf === thickness).length).toBeLessThanOrEqual(atHand);
  }
  for (const { lever, amount, leaves } of moves) {
    if (lever.places.length === 0) continue;
    const sum = leaves.reduce(
      (all, { place, layMm, takesOut }) =>
        all + place.sign * (layMm.reduce((mm, leaf) => mm + leaf, 0) - (takesOut ? place.nowMm : 0)),
      0,
    );
    expect(amount).toBeCloseTo(sum, 9);
  }
}
