import { describe, expect, it } from "vitest";
import { plannedTimeline, workedMachine } from "../../../tests/simulation/simulate.ts";
import { playRun, timelineOf } from "../../../tests/simulation/small-timeline.ts";
import { estimateTimeline } from "../fit/estimate.ts";
import type { Happening, Timeline } from "../fit/timeline.ts";
import { findings } from "./catalogue.ts";
import { evaluateFindings, isUnread } from "./evaluate.ts";

it.each(["moving-gantry", "fixed-bridge"] as const)("gives no verdict on a %s that nobody has read", (layout) => {
  const machine = workedMachine(layout);
  const limits = { own: new Map(findings.map(({ id }) => [id, 0.01])), usual: new Map<string, number>() };
  const results = evaluateFindings(estimateTimeline(machine, plannedTimeline(machine, [])), limits, {
    passed: true,
    checks: [],
  });
  for (const { verdict, finding } of results) expect(verdict, finding.id).toBe("not known yet");
});

it.each([0.12, 0.01, 0, -0.02, -0.3, -3])("never finds play below nothing, whatever is read: %d", (read) => {
  const machine = workedMachine("moving-gantry");
  const limits = { own: new Map([["lost-motion.x", 0.05]]), usual: new Map<string, number>() };
  const estimate = estimateTimeline(machine, timelineOf(machine, [playRun(0, read)]));
  const results = evaluateFindings(estimate, limits, { passed: true, checks: [] });
  for (const result of results.filter(({ finding }) => finding.form === "linear" && finding.neverNegative)) {
    expect(result.value, result.finding.id).toBeGreaterThanOrEqual(0);
    expect(result.low, result.finding.id).toBeGreaterThanOrEqual(0);
    expect(result.low).toBeLessThanOrEqual(result.value);
    expect(result.value).toBeLessThanOrEqual(result.high);
  }
  const play = results.find(({ finding }) => finding.id === "lost-motion.x");
  expect(play?.verdict).toBe(read > 0.05 ? "out" : "within");
  expect(Number.isFinite(play?.high)).toBe(true);
});

describe.each(["moving-gantry", "fixed-bridge"] as const)("a broad doubt on a %s", (layout) => {
  const machine = workedMachine(layout);
  const stations = ["front left", "front centre", "front right", "rear left", "rear centre", "rear right"];
  const gaps = (lowRight: number): Timeline => {
    const readings = stations.map((key) => [key, key.endsWith("right") ? 5 - lowRight : 5] as const);
    return timelineOf(machine, [{ check: "gap-under-beam", at: 0, instrument: "feeler", readings }]);
  };
  const found = (timeline: Timeline) => {
    const limits = { own: new Map(findings.map(({ id }) => [id, 0.02])), usual: new Map<string, number>() };
    return evaluateFindings(estimateTimeline(machine, timeline), limits, { passed: true, checks: [] });
  };
  const of = (timeline: Timeline, id: string) => found(timeline).find(({ finding }) => finding.id === id)!;

  it("is no reason to call anything out: alike gaps leave all else in doubt, and nothing beyond its limit", () => {
    const results = found(gaps(0));
    const unlikely = results.filter(({ probability, narrowed }) => (probability ?? 1) <= 0.05 && narrowed <= 0.95);
    expect(unlikely.map(({ finding }) => finding.id)).toContain("tram.side");
    expect(results.filter(({ verdict }) => verdict === "out").map(({ finding }) => finding.id)).toEqual([]);
  });

  it("does not hide what the readings show: a beam that hangs low at its right end is out over the bed", () => {
    for (const id of ["beam-over-bed.front", "beam-over-bed.rear"]) expect(of(gaps(0.4), id).verdict, id).toBe("out");
    expect(of(gaps(0.4), "tram.side").verdict).toBe("not known yet");
  });
});

describe.each(["moving-gantry", "fixed-bridge"] as const)("play that has been taken up on a %s", (layout) => {
  const machine = workedMachine(layout);
  const DAY = 86_400_000;
  const taken = (at: number): Happening => ({ kind: "moved", id: `t${at}`, at, adjuster: "play.x", amount: 1 });
  const found = (timeline: Timeline) => {
    const limits = { own: new Map([["lost-motion.x", 0.15]]), usual: new Map<string, number>() };
    const estimate = estimateTimeline(machine, timeline);
    const results = evaluateFindings(estimate, limits, { passed: true, checks: [] });
    return results.find(({ finding }) => finding.id === "lost-motion.x")!;
  };

  it("is not known until it is read again: what the cure usually leaves is no reading", () => {
    const before = found(timelineOf(machine, [playRun(0, 0.5)]));
    expect(before.verdict).toBe("out");
    const cured = found(timelineOf(machine, [playRun(0, 0.5)], [taken(DAY)]));
    expect(cured.probability).toBeGreaterThan(0.99);
    expect(cured.verdict).toBe("not known yet");
    expect(isUnread(cured)).toBe(true);
    expect(found(timelineOf(machine, [], [taken(DAY)])).verdict).toBe("not known yet");
    const read = found(timelineOf(machine, [playRun(0, 0.5), playRun(2 * DAY, 0.03)], [taken(DAY)]));
    expect(read.verdict).toBe("within");
    expect(isUnread(read)).toBe(false);
  });

  it("is unread again after it was taken up once more, and a knock on top is no reading either", () => {
    const twice = [playRun(0, 0.5), playRun(2 * DAY, 0.03)];
    expect(found(timelineOf(machine, twice, [taken(DAY), taken(3 * DAY)])).verdict).toBe("not known yet");
    const knocked: Happening = { kind: "knocked", id: "k", at: 4 * DAY, members: [] };
    expect(isUnread(found(timelineOf(machine, twice, [taken(DAY), taken(3 * DAY), knocked])))).toBe(true);
  });
});
