import { describe, expect, it } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { playRun, timelineOf } from "../../../tests/simulation/small-timeline.ts";
import { estimateTimeline } from "../fit/estimate.ts";
import type { Happening, Timeline } from "../fit/timeline.ts";
import { demandFromWish, demandKinds } from "./catalogue.ts";
import type { Demand } from "./demand.ts";
import { judgeDemands } from "./judge.ts";
import { unreadDemands, withUnreadHeldBack } from "./unread.ts";
import { workState } from "./work-state.ts";

describe.each(["moving-gantry", "fixed-bridge"] as const)("demands on a %s", (layout) => {
  const machine = workedMachine(layout);
  const made = (wish: Parameters<typeof demandFromWish>[1]): Demand => {
    const outcome = demandFromWish(machine, wish);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.diagnostics));
    return outcome.value;
  };
  const play = made({ kind: "play", sizes: { axis: "x" }, limit: 0.15 });
  const verdictOf = (timeline: Timeline) => {
    const estimate = estimateTimeline(machine, timeline);
    const { results } = judgeDemands(workState(estimate), [play], 2000);
    return withUnreadHeldBack(results, unreadDemands(estimate, [play]))[0].verdict;
  };

  it("are all unread where nothing was read, whatever is asked", () => {
    const all = demandKinds.map(({ id }) => made({ kind: id, sizes: {}, limit: 1000 }));
    const unread = unreadDemands(estimateTimeline(machine, timelineOf(machine, [])), all);
    expect([...unread].sort()).toEqual(all.map(({ id }) => id).sort());
  });

  it("are not known yet after a cure until they are read again", () => {
    const taken: Happening = { kind: "moved", id: "t", at: 1000, adjuster: "play.x", amount: 1 };
    expect(verdictOf(timelineOf(machine, [playRun(0, 0.5)]))).toBe("out");
    expect(verdictOf(timelineOf(machine, [playRun(0, 0.5)], [taken]))).toBe("not known yet");
    expect(verdictOf(timelineOf(machine, [playRun(0, 0.5), playRun(2000, 0.03)], [taken]))).toBe("within");
  });
});
