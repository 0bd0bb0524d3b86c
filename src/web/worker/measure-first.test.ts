import { beforeEach, describe, expect, it, vi } from "vitest";
import { demonstrationEvents } from "../../../tests/stories/demonstration-events.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { loadSolver } from "../../solver/highs.ts";
import { addEvents, assessmentOf, forgetMachine } from "./held.ts";
import { thingsToDo } from "./next-thing.ts";
import { planPage } from "./plan-pages.ts";
import type { PlanPage } from "./protocol-moves.ts";

const machine = "00000000000000000000000000000001";
const solve = await loadSolver();

vi.setConfig({ testTimeout: 60_000 });

/** Three readings of the gap at the front, 55 days after all others: they agree with those to within a leaf. */
const late: readonly LogEvent[] = [
  { kind: "run-begun", run: "late", check: "gap-under-beam", instrument: "leaves", objects: { block: "oak-block" } },
  ...(["front left", "front middle", "front right"] as const).map((station, i) => ({
    kind: "reading-taken",
    run: "late",
    station,
    unit: "mm",
    goes: [0.45, 0.35, 0.4][i],
    doesNotGo: [0.5, 0.4, 0.45][i],
  })),
].map((body, i) => ({
  v: 1,
  id: `01a1705d-ffff-7000-8000-0000000000${10 + i}`,
  at: `2026-11-26T10:00:${10 + i}+01:00`,
  ...body,
})) as unknown as readonly LogEvent[];

function planned(): PlanPage {
  const answer = planPage(machine, {}, solve);
  if (!answer.ok) throw new Error(JSON.stringify(answer.told));
  return answer.value;
}

describe("a few readings, long after all others", () => {
  beforeEach(() => {
    forgetMachine(machine);
    addEvents(machine, demonstrationEvents, true);
  });

  it("open no joint for what has become doubtful: it is measured for first, and the rest of the plan stands", () => {
    const before = planned();
    expect(before.measure).toBeNull();
    addEvents(machine, late);
    const after = planned();
    const joints = ({ moves }: PlanPage) =>
      moves.filter(({ kind }) => kind !== "assign").map(({ adjuster }) => adjuster);
    // No leaf goes under the bed or the rails, and nothing is skimmed, for a spread that may well be within.
    expect(joints(after).filter((adjuster) => /^(bed|rail)\./.test(adjuster))).toEqual([]);
    expect(after.moves).toHaveLength(before.moves.length);
    expect(after.demands.find(({ id }) => id.startsWith("depth-spread"))?.verdictNow).toBe("not known yet");
    expect(after.headline).toMatch(
      /Measure first, though: more is in doubt of spread of depth .* than its whole limit/,
    );
    expect(after.measure?.first).toBe(true);
    expect(after.holdOuts).toEqual([]);
  });

  it("say the measuring before the moves in what comes next", () => {
    addEvents(machine, late);
    const { things } = planned();
    const assessed = assessmentOf(machine);
    if (!assessed.ok) throw new Error("the demonstration reads");
    const paths = thingsToDo(assessed.value, things).things.map(({ path }) => path);
    const firstMove = paths.findIndex((path) => path.startsWith("moves/"));
    const check = paths.findIndex(
      (path) => path.startsWith("measure/gap-under-beam?") || path === "measure/gap-under-beam",
    );
    expect(check).toBeGreaterThanOrEqual(0);
    expect(firstMove).toBeGreaterThan(check);
  });
});
