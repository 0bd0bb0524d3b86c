import { beforeEach, describe, expect, it } from "vitest";
import { demonstrationText, demonstrationEvents as events } from "../../../tests/stories/demonstration-events.ts";
import { good } from "../../../tests/stories/good-answer.ts";
import { assess } from "../../app/assess.ts";
import { openSession } from "../../app/session.ts";
import { showFinding } from "../../core/findings/shown.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { entryText, fieldsOf } from "../views/measure/entry-text.ts";
import { checkList, checkPage, runPage } from "./check-pages.ts";
import { findingPage, findingsPage, readingsPage } from "./finding-pages.ts";
import { addEvents, assessmentOf, eventsOfMachine, forgetMachine, sessionOf } from "./held.ts";
import { historyPage } from "./history-pages.ts";
import { machineCard } from "./machine-card.ts";
import { overview } from "./machine-pages.ts";
import type { CheckPage, ReadOne, SetupChoice } from "./protocol.ts";
import { knownBetter, nextLeaf, readMany, readOne } from "./reading-answers.ts";
import { toolsPage } from "./tool-pages.ts";

const machine = "00000000000000000000000000000001";

beforeEach(() => {
  forgetMachine(machine);
  addEvents(machine, events, true);
});

const gap: SetupChoice = {
  check: "gap-under-beam",
  instrument: "leaves",
  objects: { block: "oak-block" },
  options: {},
  conditions: {},
};

function read(into: string | SetupChoice, station: string, typed: string, again: string | null = null): ReadOne {
  const taken = good(readOne({ machine, into, station, text: typed, unit: "mm", again, by: "" }));
  addEvents(machine, taken.events);
  return taken;
}

describe("a run that was broken off", () => {
  const page = (some: Partial<SetupChoice> = {}) => good(checkPage(machine, { ...gap, ...some }, "mm"));

  it("is gone on with at its first open station, as long as it is set up so and nothing has happened since", () => {
    expect(page().unfinished).toBeNull();
    const { run } = read(gap, page().stations[0].key, "0.65").verdict;
    read(run, page().stations[1].key, "0.65");
    expect(page().unfinished).toEqual({ run, read: 2, of: 6, next: 3 });
    expect(page({ instrument: "calipers" }).unfinished).toBeNull();
    addEvents(machine, [
      {
        v: 1,
        id: "ffffffff-ffff-7000-8000-000000000000",
        at: new Date(Date.now() + 1000).toISOString(),
        kind: "knocked",
        members: [],
      } as unknown as LogEvent,
    ]);
    expect(page().unfinished).toBeNull();
  });
});

describe("what the worker answers", () => {
  it("shows the numbers of the same assessment as every other way in", () => {
    const session = openSession(demonstrationText, "x");
    if (!session.ok) throw new Error("the demonstration reads");
    const rows = good(findingsPage(machine)).rows;
    for (const result of assess(session.value.timeline).findings) {
      const row = rows.find(({ id }) => id === result.finding.id);
      const { value, uncertainty, unit, limit } = showFinding(result);
      expect(row).toMatchObject({ value, uncertainty, unit, limit, verdict: result.verdict });
    }
  });

  it("is the same whatever the order and the parcels in which events come", () => {
    const before = good(findingsPage(machine));
    forgetMachine(machine);
    for (let i = events.length; i > 0; i -= 7) addEvents(machine, events.slice(Math.max(0, i - 7), i), true);
    addEvents(machine, events.slice(20, 60));
    expect(good(findingsPage(machine))).toEqual(before);
    expect(eventsOfMachine(machine)).toHaveLength(events.length);
  });

  it("has something for every view of every finding and every check", () => {
    expect(machineCard(machine)).toMatchObject({ demonstration: true, refused: [] });
    for (const projection of ["third", "first"] as const)
      expect(good(overview(machine, projection)).sheet).toContain("<svg");
    for (const { id } of good(findingsPage(machine)).rows) expect(good(findingPage(machine, id)).apart).not.toBe("");
    const list = good(checkList(machine));
    for (const { id } of [...list.fitToMeasure, ...list.shortRound, ...list.rest]) {
      const page = good(checkPage(machine, { check: id }, null));
      expect(page.stations.length, id).toBeGreaterThan(0);
      const now = page.stations[0]?.key ?? null;
      expect(good(runPage(machine, page.chosen, now, null)).plan, id).toContain("<svg");
    }
    expect(good(readingsPage(machine)).length).toBeGreaterThan(20);
    expect(good(historyPage(machine)).dates.length).toBeGreaterThan(1);
    expect(good(toolsPage(machine)).instruments.length).toBeGreaterThan(5);
  });

  it("draws nothing that the policy of the page would not draw: no styles inside, no scripts", () => {
    const page = good(checkPage(machine, { check: "tram-sweep" }, null));
    const drawings = [
      page.wide,
      page.narrow,
      good(overview(machine, "third")).sheet,
      ...good(historyPage(machine)).findings.map(({ plot }) => plot),
    ];
    for (const svg of drawings) expect(svg).not.toMatch(/<style|<script|\sstyle=|\son\w+=/);
  });

  it("tells the machine that contradicts itself, and answers nothing else of it", () => {
    addEvents(machine, [
      {
        ...events[0],
        id: "01a0705d-ffff-7000-8000-000000000001",
        at: "2026-12-01T09:00:00Z",
        kind: "reading-taken",
        run: "nowhere",
        station: "x",
        unit: "mm",
        value: 1,
      } as never,
    ]);
    expect(machineCard(machine)?.refused.length).toBeGreaterThan(0);
    expect(findingsPage(machine).ok).toBe(false);
  });
});

describe("one reading", () => {
  it("begins the run with the first and goes into it with the next", () => {
    const first = read(gap, "front left", "0.40");
    expect(first.events.map(({ kind }) => kind)).toEqual(["run-begun", "reading-taken"]);
    const second = read(first.verdict.run, "front middle", "0.35");
    expect(second.events.map(({ kind }) => kind)).toEqual(["reading-taken"]);
    expect(second.verdict.fits).toBe("fits");
  });

  it("that only a wide doubt lets stand is kept, shown back, and not praised", () => {
    forgetMachine(machine);
    const isKnown = ({ kind }: LogEvent) => /^(machine|instrument|object)-/.test(kind);
    addEvents(machine, events.filter(isKnown), true);
    const { run } = read(gap, "front left", "0.40").verdict;
    const { verdict } = read(run, "rear right", "0.90");
    expect(verdict).toMatchObject({ fits: "noted", strong: "0.9/0.95 mm kept" });
    expect(verdict.rest).toMatch(
      /^: 0\.\d\d mm off what the rest leads to expect; nothing known yet speaks against it\.$/,
    );
  });

  it("that stands far off is withdrawn where the second one fits, and kept where both say the same", () => {
    const run = read(gap, "front left", "0.40").verdict.run;
    for (const station of ["front middle", "front right", "rear left"]) read(run, station, "0.40");
    const far = read(run, "rear middle", "2.80");
    expect(far.verdict.fits).toBe("far");
    const same = good(
      readOne({
        machine,
        into: run,
        station: "rear middle",
        text: "2.80",
        unit: "mm",
        again: far.verdict.reading,
        by: "",
      }),
    );
    expect(same).toMatchObject({ replaced: [], verdict: { fits: "noted", strong: "The same twice" } });
    const other = read(run, "rear middle", "0.40", far.verdict.reading);
    expect(other.replaced).toEqual([far.verdict.reading]);
    const session = sessionOf(machine);
    expect(
      session.ok && session.value.timeline.readings.find(({ id }) => id === far.verdict.reading)?.withdrawn,
    ).toMatch(/read again/i);
  });

  it("that stands far off is said back, with what is expected there in the unit typed", () => {
    const travel: SetupChoice = {
      check: "travel",
      instrument: null,
      objects: {},
      options: { axis: "X" },
      conditions: {},
    };
    const page = good(checkPage(machine, travel, null));
    const [station] = page.stations;
    const slip = good(
      readOne({ machine, into: page.chosen, station: station.key, text: "1.5", unit: "in", again: null, by: "" }),
    ).verdict;
    expect(slip.fits).toBe("far");
    const inches = Number.parseFloat(station.nominal.replace("about ", "")) / 25.4;
    const [, expected] = /^1\.5 read, about ([\d.]+) in expected$/.exec(slip.strong) ?? [];
    expect(Math.abs(Number(expected) - inches)).toBeLessThan(0.3);
  });

  describe("that repeats a station", () => {
    let run = "";
    beforeEach(() => {
      run = read(gap, "front left", "0.40").verdict.run;
      for (const station of ["front middle", "front right", "rear left"]) read(run, station, "0.40");
    });

    const countedAt = (station: string) => {
      const session = sessionOf(machine);
      if (!session.ok) throw new Error("the machine reads");
      return session.value.timeline.readings
        .filter((reading) => reading.run === run && reading.station === station && reading.withdrawn === null)
        .map(({ entries: [entry] }) => (entry.form === "interval" ? entry.goes : entry));
    };

    it("is no second of the same where its tool tells the two apart, and a third settles it", () => {
      const far = read(run, "rear middle", "2.80").verdict;
      const apart = read(run, "rear middle", "2.60", far.reading);
      expect(apart).toMatchObject({ replaced: [], verdict: { fits: "far", strong: "0.20 mm apart" } });
      const third = read(run, "rear middle", "2.60", apart.verdict.reading);
      expect(third).toMatchObject({ replaced: [far.reading], verdict: { strong: "Two readings agree" } });
      expect(countedAt("rear middle")).toEqual([2.6, 2.6]);
    });

    it("is held against what it repeats though nobody asked for it, and a third says which one slipped", () => {
      read(run, "rear middle", "0.40");
      const slip = read(run, "rear middle", "1.40").verdict;
      expect(slip).toMatchObject({ fits: "far", strong: "1.00 mm apart" });
      expect(read(run, "rear middle", "0.40", slip.reading).replaced).toEqual([slip.reading]);
      expect(countedAt("rear middle")).toEqual([0.4, 0.4]);
    });

    it("takes the place of a slip that was kept, once the rest says so", () => {
      const slip = read(run, "rear middle", "2.80").verdict;
      expect(read(run, "rear middle", "0.40").replaced).toEqual([slip.reading]);
    });

    it("keeps a reading beside it that its tool does not tell from it", () => {
      read(run, "rear middle", "0.40");
      expect(read(run, "rear middle", "0.45")).toMatchObject({ replaced: [], verdict: { fits: "noted" } });
      expect(countedAt("rear middle")).toEqual([0.4, 0.45]);
    });

    it("withdraws nothing where it comes back to a station: what has shifted since is no slip", () => {
      expect(read(run, "front left", "1.40").replaced).toEqual([]);
      expect(countedAt("front left")).toEqual([0.4, 1.4]);
    });
  });

  it("that no stack makes is refused with the one that was meant, and nothing is kept", () => {
    const answer = readOne({
      machine,
      into: gap,
      station: "front left",
      text: "0.53",
      unit: "mm",
      again: null,
      by: "",
    });
    expect(answer).toMatchObject({ ok: false, told: [{ code: "leaves-cannot-make", data: { meant: "0.35 mm" } }] });
    expect(eventsOfMachine(machine)).toHaveLength(events.length);
  });

  it("says which finding it has narrowed", () => {
    forgetMachine(machine);
    addEvents(
      machine,
      events.filter(({ kind }) => ["machine-described", "instrument-added", "object-added"].includes(kind)),
      false,
    );
    assessmentOf(machine);
    const run = read(gap, "front left", "0.40").verdict.run;
    knownBetter(machine);
    read(run, "front right", "0.60");
    expect(knownBetter(machine)).toMatch(/: ±\s[\d.]+ mm.*, before ±\s[\d.]+\.$/);
  });

  it("of leaves is completed by the next leaf of the user's own set", () => {
    const ask = (goes: string, unit = "mm") => nextLeaf({ machine, instrument: "leaves", goes, unit });
    expect(ask("0.35")).toBe("0.40");
    expect(ask("0.20+0.15")).toBe("0.40");
    expect(ask("2.85")).toBe("");
    expect(ask("nothing")).toBe("");
  });
});

describe("the history", () => {
  it("says of which check and station a reading was, which way a check was done, and what came before each point", () => {
    const { verdict } = read({ ...gap }, "front left", "0.40");
    const [first] = eventsOfMachine(machine);
    const withdrawn = { ...first, id: "01ffffff-ffff-7000-8000-000000000001", at: "2026-12-01T09:00:00Z" };
    addEvents(machine, [
      { ...withdrawn, kind: "reading-withdrawn", reading: verdict.reading, because: "Undone at once." } as never,
    ]);
    const { log, findings } = good(historyPage(machine));
    const lines = log.map(({ words }) => words);
    expect(lines).toContain("A reading is withdrawn (Gap under the beam, front left): Undone at once.");
    expect(lines.some((line) => /^Play on turning round, X: \d+ readings?\.$/.test(line))).toBe(true);
    for (const { rows, plot } of findings) {
      expect(new Set(rows.map(({ date }) => date)).size).toBe(rows.length);
      expect(plot).not.toMatch(/move: [a-z]+\./);
    }
  });
});

describe("a whole run at one go", () => {
  it("is refused whole with every reason, or taken whole", () => {
    const typed = (texts: readonly string[]) => texts.map((one) => ({ text: one, unit: "mm" }));
    const refused = readMany({ machine, setup: gap, readings: typed(["0.40", "0.53", "99"]), by: "" });
    expect(refused.ok).toBe(false);
    expect(refused.told.length).toBe(2);
    const taken = good(readMany({ machine, setup: gap, readings: typed(["0.40", "", "0.40"]), by: "me" }));
    expect(taken.verdicts.map(({ station }) => station)).toEqual(["front left", "front right"]);
    expect(taken.events.every(({ by }) => by === "me")).toBe(true);
  });

  it("says at which row of the form each value is refused, and stands at the day it was read", () => {
    const rows = ["0.40", "0.53", "99"].map((text, i) => ({ text, unit: "mm", line: i + 1 }));
    const refused = readMany({ machine, setup: gap, readings: rows, by: "" });
    expect(refused.told.map(({ line }) => line)).toEqual([2, 3]);
    const at = Date.UTC(2026, 0, 15, 12);
    const taken = good(readMany({ machine, setup: gap, readings: rows.slice(0, 1), by: "", at }));
    expect(taken.events.map((event) => event.at.slice(0, 10))).toEqual(["2026-01-15", "2026-01-15"]);
  });
});

describe("a check whose second entry is read first", () => {
  it("asks for the left gap before the right one, and keeps them as the logbook has them", () => {
    const stops: SetupChoice = { check: "stop-gaps", instrument: "leaves", objects: {}, options: {}, conditions: {} };
    const page = good(checkPage(machine, stops, null));
    const fields = fieldsOf(page.entry);
    expect(fields.map(({ label }) => label)).toEqual([
      "left gap, goes",
      "left gap, does not go",
      "right gap, goes",
      "right gap, does not go",
    ]);
    const { events: taken, verdict } = read(
      page.chosen,
      "first press",
      entryText(page.entry, ["0", "", "0.9", "0.95"]),
    );
    expect(taken.find(({ kind }) => kind === "reading-taken")).toMatchObject({
      first: { goes: 0.9, doesNotGo: 0.95 },
      second: { value: 0 },
    });
    const shown = good(runPage(machine, verdict.run, null, null)).readings;
    expect(shown.map(({ text }) => text)).toEqual(["left gap 0, right gap 0.9 to 0.95"]);
  });
});

describe("the rectangle of four marks", () => {
  const opened = (asked: Partial<SetupChoice>) => good(checkPage(machine, { check: "hole-rectangle", ...asked }, null));
  const familyOf = (page: CheckPage) => page.instruments.find(({ id }) => id === page.chosen.instrument)?.family;

  it("opens with the marks and the tool that belong together, and says where the marks are cut", () => {
    const page = opened({});
    expect(page.chosen.options).toEqual({ marks: "pricks" });
    expect(familyOf(page)).toBe("rule");
    expect(page.families).toEqual(["rule", "tape", "pinch rods"]);
    expect(page.marks).toHaveLength(4);
    const longest = Math.max(...page.stations.map(({ nominal }) => Number.parseFloat(nominal.replace("about ", ""))));
    expect(longest).toBeGreaterThan(290);
  });

  it("goes over to holes where calipers are chosen, and to calipers where holes are", () => {
    const calipers = opened({}).unusualInstruments.find(({ family }) => family === "calipers");
    expect(opened({ instrument: calipers?.id as string }).chosen.options).toEqual({ marks: "holes" });
    expect(familyOf(opened({ options: { marks: "holes" } }))).toBe("calipers");
  });
});

describe("a finding that is within", () => {
  it("says where that rests mostly on what is usual, and only there", () => {
    const { rows } = good(findingsPage(machine));
    const assessed = assessmentOf(machine);
    if (!assessed.ok) throw new Error("the demonstration reads");
    const within = assessed.value.findings.filter(({ verdict }) => verdict === "within");
    const usual = within.filter(({ narrowed }) => narrowed ** 2 > 0.5).map(({ finding }) => finding.id);
    expect(rows.filter(({ chance }) => chance === "by what is usual").map(({ id }) => id)).toEqual(usual);
    for (const { finding } of within) {
      const { chanceSentence } = good(findingPage(machine, finding.id));
      expect(chanceSentence.includes("rests mostly on what is usual")).toBe(usual.includes(finding.id));
    }
    expect(usual.length).toBeLessThan(within.length);
  });
});
