import { beforeEach, describe, expect, it, vi } from "vitest";
import { demonstrationEvents as events } from "../../../tests/stories/demonstration-events.ts";
import { good } from "../../../tests/stories/good-answer.ts";
import type { StopAt } from "../../core/planning/plan.ts";
import { showDemand } from "../../core/work/shown-demand.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { loadSolver } from "../../solver/highs.ts";
import { concernsOf } from "./concerns.ts";
import { addEvents, assessmentOf, forgetMachine, keepPlanned, versionOf } from "./held.ts";
import { movesBoard } from "./move-pages.ts";
import { nextPage } from "./next-page.ts";
import { nextThing, openConcerns, thingsToDo } from "./next-thing.ts";
import { heldAgainst, planPage } from "./plan-pages.ts";
import type { PlanPage, WhatIf } from "./protocol-moves.ts";

const machine = "00000000000000000000000000000001";
const solve = await loadSolver();

const worked = new Map<string, PlanPage>();

/** Of the demonstration as it stands every plan is worked out once. */
function plan(what: WhatIf = {}): PlanPage {
  const key = `${versionOf(machine)} ${JSON.stringify(what)}`;
  const known = worked.get(key) ?? good(planPage(machine, what, solve));
  worked.set(key, known);
  return known;
}

const assessment = () => {
  const assessed = assessmentOf(machine);
  if (!assessed.ok) throw new Error("the demonstration reads");
  return assessed.value;
};

/** The odd reading of the demonstration taken out, so that nothing stands before the plan. */
function withoutTheOddReading(): void {
  const odd = assessment().trust.rows.filter((row) => row.odd);
  addEvents(
    machine,
    odd.flatMap(({ readings }, i) =>
      readings.map(({ id }) => ({
        v: 1,
        id: `01a0705d-ffff-7000-8000-0000000000${10 + i}`,
        at: "2026-12-01T09:00:00Z",
        kind: "reading-withdrawn",
        reading: id,
        because: "bent leaf",
      })),
    ) as unknown as readonly LogEvent[],
  );
}

vi.setConfig({ testTimeout: 60_000 });

beforeEach(() => {
  forgetMachine(machine);
  addEvents(machine, events, true);
});

describe("the plan on the page", () => {
  it("shows its moves in their order, each with what a hand needs to know, and draws them for the page", () => {
    const page = plan();
    expect(page.moves.length).toBeGreaterThan(1);
    for (const move of page.moves) {
      expect(move.sentence).toMatch(/^[A-Z].*\.$/);
      expect(move.fastening.join(" ")).toMatch(/\.$/);
      expect(move.drawing).toContain("<svg");
      expect(move.drawing + move.picture + (move.stop?.plan ?? "")).not.toMatch(/<style|<script|\sstyle=|\son\w+=/);
    }
    expect(page.moves.some(({ stop }) => stop !== null && stop.band !== "")).toBe(true);
  });

  it("has the numbers of its words: amounts, readings to stop at, demands before and after", () => {
    const page = plan();
    expect(page.numbers.moves.map(({ adjuster }) => adjuster)).toEqual(page.moves.map(({ adjuster }) => adjuster));
    for (const [i, row] of page.demands.entries()) {
      const { before, after } = page.numbers.demands[i];
      expect(row.before).toBe(showDemand(before).whole);
      expect(row.after).toBe(showDemand(after).whole);
      expect(row.verdict).toBe(after.verdict);
    }
  });

  it("says what moves bring with unit and doubt: in the list, beside each move, and in both pictures", () => {
    const page = plan();
    const doubted = /^\d+(\.\d+)? \(\d+(\.\d+)? to \d+(\.\d+)?\)$/;
    for (const { after } of page.demands) expect(after).toMatch(doubted);
    for (const { brings, picture } of page.moves)
      for (const { after, unit, limit, title } of brings) {
        expect(after).toMatch(doubted);
        expect(picture).toContain(`${title}: now `);
        expect(picture).toContain(`then ${after} ${unit}, at most ${limit} ${unit}`);
      }
    for (const { after, limit } of page.demands)
      expect(page.picture).toContain(`${after} ${limit.split(" ")[1]}, at most ${limit}`);
    const [first] = page.things.moves;
    expect(first.why).toMatch(/ to [\d.]+ \([\d.]+ to [\d.]+\) mm(\/m)?; at most /);
  });

  it("tries a lock, another work or no leaves without keeping anything of it", () => {
    const [first] = plan().moves;
    const without = plan({ locks: [first.adjuster] });
    expect(without.moves.map(({ adjuster }) => adjuster)).not.toContain(first.adjuster);
    const alone = plan({ only: [first.adjuster] });
    expect(alone.moves.map(({ adjuster }) => adjuster)).toEqual([first.adjuster]);
    expect(plan({ kindOfWork: "lettering", stockMm: [] }).demands.map(({ id }) => id)).not.toEqual(
      plan().demands.map(({ id }) => id),
    );
    expect(plan().moves[0].adjuster).toBe(first.adjuster);
  });

  it("says of what holds out what would bring it in", () => {
    const locked = plan({ only: [] });
    expect(locked.answer).toBe("out of reach");
    expect(locked.holdOuts.length).toBeGreaterThan(0);
    expect(locked.holdOuts.some(({ unlock }) => unlock !== null)).toBe(true);
  });
});

describe("what comes next", () => {
  it("is the fit-to-measure round on a machine that has not been measured", () => {
    forgetMachine(machine);
    addEvents(
      machine,
      events.filter(({ kind }) => kind === "machine-described"),
    );
    const { now, wouldPlan } = good(nextPage(machine));
    expect(now).toMatchObject({ title: expect.stringMatching(/^Fit to measure/), path: "measure/feet-rock" });
    expect(wouldPlan).toBe(false);
  });

  it("is to read again what stands away, before anything is moved for it", () => {
    const { now, afterwards } = good(nextPage(machine));
    expect(now?.title).toMatch(/^Read again: gap under the beam/);
    expect(now?.path).toBe("measure/gap-under-beam/run/run-10?station=rear%20middle");
    expect(afterwards.map(({ path }) => path)).toContain("moves");
  });

  describe("where a reading stands away", () => {
    const happened = (minute: number, event: object) =>
      ({
        ...{ v: 1, id: `01a0705d-ffff-7000-8000-0000000003${10 + minute}` },
        ...{ at: `2026-12-05T09:${10 + minute}:00Z`, ...event },
      }) as unknown as LogEvent;
    const moved = (adjuster: string, amount: number) => happened(1, { kind: "move-made", adjuster, amount });
    const asked = () => openConcerns(assessment()).map(({ title }) => title);
    const told = () => concernsOf(assessment()).map(({ text }) => text);

    it("says on the plan's own page, and of which day it is, that it is read again before anything is moved", () => {
      const { disputed } = good(movesBoard(machine));
      expect(disputed.map(({ title }) => title)).toEqual(asked());
      expect(disputed[0]).toMatchObject({ title: expect.stringMatching(/^Read again: gap under the beam/) });
      expect(disputed[0].why).toContain("of 2026-09-05");
    });

    it("asks no more once another run has read that station anew, and leaves it to be withdrawn or kept", () => {
      const run = events.find((event) => event.kind === "run-begun" && event.run === "run-10");
      const { v: _, id: __, at: ___, ...begun } = run as never as Record<string, unknown>;
      addEvents(machine, [
        happened(1, { ...begun, run: "newer" }),
        ...["front left", "front middle", "rear middle"].map((station, i) =>
          happened(2 + i, { kind: "reading-taken", run: "newer", station, unit: "mm", goes: 0.4, doesNotGo: 0.45 }),
        ),
      ]);
      expect(asked().join()).not.toContain("rear, middle");
      expect(told().join()).toMatch(
        /of 2026-09-05, and a run of 2026-12-05 has read its station anew: withdraw this one/,
      );
    });

    it("asks no more once what it hangs on has been moved, and says that it cannot be repeated", () => {
      addEvents(machine, [moved("beam.left", -0.56)]);
      expect(asked().join()).not.toContain("rear, middle");
      expect(told().join()).toMatch(
        /of 2026-09-05 and cannot be repeated, since what it hangs on has been moved on 2026-12-05/,
      );
      expect(told().join()).not.toContain("Read it again");
    });

    it("goes on asking when something else has been moved", () => {
      addEvents(machine, [moved("play.x", 1)]);
      expect(asked().join()).toContain("rear, middle");
    });
  });

  it("is to see the moves while no plan has been worked out, and its first move afterwards", () => {
    withoutTheOddReading();
    expect(nextThing(assessment(), null)?.path).toBe("moves");
    const { things, moves } = plan();
    expect(nextThing(assessment(), things)).toMatchObject({
      title: moves[0].sentence.replace(/\.$/, ""),
      path: `moves/${moves[0].adjuster.replace(".", "~")}`,
    });
  });

  it("keeps a plan for it until the next event, and no longer", () => {
    withoutTheOddReading();
    keepPlanned(machine, versionOf(machine), plan().things);
    expect(good(nextPage(machine)).planned).toBe(true);
    addEvents(machine, [
      { v: 1, id: "01a0705d-ffff-7000-8000-000000000099", at: "2026-12-02T09:00:00Z", kind: "homed" } as never,
    ]);
    expect(good(nextPage(machine)).planned).toBe(false);
  });

  it("asks to read again what a move has disturbed, until it has been read", () => {
    withoutTheOddReading();
    const at = (minute: number) => `2026-12-03T09:${String(minute).padStart(2, "0")}:00Z`;
    const tram = events.find((event) => event.kind === "run-begun" && event.check === "tram-sweep");
    const id = (n: number) => `01a0705d-ffff-7000-8000-0000000001${n}`;
    addEvents(machine, [
      { v: 1, id: id(10), at: at(0), kind: "move-made", adjuster: "slide.side", amount: -1.9 } as never,
    ]);
    const again = () => thingsToDo(assessment(), null).things.map(({ title }) => title);
    expect(again()).toContain("Measure again: cutter’s axis to the bed (tram)");
    addEvents(machine, [
      {
        ...{ v: 1, id: id(11), at: at(10), kind: "run-begun", run: "tram-after", check: "tram-sweep" },
        ...{ instrument: tram?.kind === "run-begun" ? tram.instrument : null },
      } as never,
      {
        v: 1,
        id: id(12),
        at: at(11),
        kind: "reading-taken",
        run: "tram-after",
        station: "centre, front",
        unit: "mm",
        value: 0,
      } as never,
    ]);
    expect(again()).not.toContain("Measure again: cutter’s axis to the bed (tram)");
  });
});

describe("the other reading of a proof that takes two", () => {
  const [left, right] = [{ key: "left" }, { key: "right" }] as unknown as [StopAt["station"], StopAt["station"]];

  it("is that of the other station, or that of the same one before the joint is opened, or none in a run that goes on", () => {
    expect(heldAgainst({ station: right, against: left, setUp: "anew" })).toEqual({
      station: "left",
      name: "left",
      isBefore: false,
    });
    expect(heldAgainst({ station: right, against: null, setUp: "before the move" })).toEqual({
      station: "right",
      name: "right",
      isBefore: true,
    });
    expect(heldAgainst({ station: right, against: null, setUp: "as it stood" })).toBeNull();
  });

  it("has a place in the plan of a machine whose runs go on only where a homing comes first", () => {
    for (const { stop } of plan().moves) expect(stop?.other !== null && stop !== null).toBe(stop?.homesFirst === true);
    const [play, home] = plan().moves;
    // Play is taken up before anything is trimmed, or read, through it.
    expect(play.adjuster).toBe("play.x");
    expect(home).toMatchObject({ adjuster: "gantry.offset", stop: { check: "hole-rectangle", homesFirst: true } });
    expect(home.fastening.join(" ")).toContain("only a homing brings the beam to its new place");
    expect([home.fastening, home.cautions, home.alsoLoose].flat().join(" ")).not.toMatch(/belt|clamp|stops/i);
  });
});
