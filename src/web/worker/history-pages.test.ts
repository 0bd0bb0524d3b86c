import { beforeEach, describe, expect, it } from "vitest";
import { demonstrationEvents as events } from "../../../tests/stories/demonstration-events.ts";
import { good } from "../../../tests/stories/good-answer.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { comparePage } from "./compare-pages.ts";
import { findingPage, readingsPage } from "./finding-pages.ts";
import { addEvents, forgetMachine } from "./held.ts";
import { historyPage } from "./history-pages.ts";
import { movesBoard } from "./move-pages.ts";

const machine = "workshop";

const taken = events.find((event) => event.kind === "reading-taken" && event.run === "run-12");

/** A move, a reading, a knock and another reading on one day, and a reading of an earlier run put away. */
const later = [
  { kind: "move-made", adjuster: "gantry.offset", amount: -1.889 },
  {
    kind: "run-begun",
    run: "play-1",
    check: "turnaround",
    instrument: "dial",
    options: { axis: "X" },
    conditions: { carriageParkedMm: 300 },
  },
  { kind: "reading-taken", run: "play-1", station: "nose", unit: "mm", value: 0.17 },
  { kind: "knocked" },
  {
    kind: "run-begun",
    run: "play-2",
    check: "turnaround",
    instrument: "dial",
    options: { axis: "X" },
    conditions: { carriageParkedMm: 300 },
  },
  { kind: "reading-taken", run: "play-2", station: "nose", unit: "mm", value: 0.18 },
  { kind: "reading-withdrawn", reading: taken?.id, because: "Undone at once." },
].map((event, i) => ({
  v: 1,
  id: `01a0705d-ffff-7000-8000-0000000000${10 + i}`,
  at: `2026-11-26T04:0${i}:00+01:00`,
  ...event,
})) as unknown as readonly LogEvent[];

beforeEach(() => {
  forgetMachine(machine);
  addEvents(machine, [...events, ...later], true);
});

describe("the history on the page", () => {
  const move = "the right end of the beam 1.89 mm to the front";

  it("says a move in the same plain words in the list, in the chart, in its table, on the moves' page and between two times", () => {
    const { findings, log } = good(historyPage(machine));
    expect(log.find(({ words }) => words.startsWith("Moved"))?.words).toBe(`Moved: ${move}.`);
    for (const { plot, rows } of findings) {
      expect(plot).toContain(`Move: ${move}.`);
      expect(plot).not.toContain("gantry.offset");
      expect(rows.map(({ after }) => after).join()).toContain(move);
    }
    expect(good(movesBoard(machine)).done.map(({ words }) => words)).toEqual([move]);
    const compared = good(comparePage({ machine, from: "2026-10-02T20:00:00Z", to: null, around: null }));
    expect(compared.comparison?.between).toContain(move);
  });

  it("gives times of one day their time beside the date, everywhere alike", () => {
    const dates = ["2026-09-05", "2026-10-02", "2026-11-26 04:02", "2026-11-26 04:05"];
    expect(good(historyPage(machine)).dates).toEqual(dates);
    const { epochs } = good(comparePage({ machine, from: null, to: null, around: null }));
    expect(epochs.map(({ date }) => date)).toEqual(dates);
  });

  it("names runs with their axis, and the reading that was put away", () => {
    const words = good(historyPage(machine)).log.map((line) => line.words);
    expect(words).toContain("Play on turning round, X: 6 readings.");
    expect(words).toContain("Play on turning round, Y: 6 readings.");
    expect(words).toContain("A reading is withdrawn (Play on turning round, X, nose): Undone at once.");
  });
});

describe("the readings on the page", () => {
  const runs = () => good(readingsPage(machine));

  it("says of each answer what it is about where it would say nothing by itself", () => {
    const turned = runs().find(({ how }) => /left or front/.test(how));
    expect(turned?.how.split(", ").sort()).toEqual(["side", "square left or front", "stem left or front"]);
    for (const { how } of runs()) expect(how).not.toMatch(/^left or front|, left or front/);
  });

  it("writes the readings of a run with as many decimals each", () => {
    for (const { run, readings } of runs()) {
      const decimals = readings
        .flatMap(({ text }) => text.match(/\d+(\.\d+)?/g) ?? [])
        .map((n) => n.split(".")[1]?.length);
      expect(new Set(decimals).size, run).toBeLessThanOrEqual(1);
    }
  });
});

describe("a finding on the page", () => {
  it("has one figure of its doubt: in the list, at the end of its history, and where a check would bring it down", () => {
    for (const id of ["squareness", "plunge-to-motion.fore", "depth-spread", "lost-motion.x"]) {
      const { row, history, sharpenedBy } = good(findingPage(machine, id));
      expect(history.at(-1), id).toMatchObject({ value: row.value, uncertainty: row.uncertainty });
      for (const { words } of sharpenedBy)
        if (words.includes("U falls")) expect(words, id).toContain(`U falls from ${row.uncertainty} to `);
    }
  });
});
