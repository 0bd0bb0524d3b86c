import { beforeEach, describe, expect, it } from "vitest";
import { demonstrationEvents as events } from "../../../tests/stories/demonstration-events.ts";
import { good } from "../../../tests/stories/good-answer.ts";
import { newSession, sessionWith } from "../../app/session.ts";
import { Stamp } from "../../app/stamp.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { checkPage } from "./check-pages.ts";
import { addEvents, eventsOfMachine, forgetMachine, hereAndNow, sessionOf } from "./held.ts";
import { historyPage, takeEntryBack } from "./history-pages.ts";
import { nextLeaf, readOne } from "./reading-answers.ts";
import { leafList, putToolAway, toolsPage } from "./tool-pages.ts";

const machine = "00000000000000000000000000000001";

beforeEach(() => {
  forgetMachine(machine);
  addEvents(machine, events, true);
});

/** What the page would write, later than everything that stands there. */
function add(kind: "instrument-added" | "machine-described" | "move-made", payload: object): LogEvent {
  const event = new Stamp(hereAndNow).event(kind, payload as never);
  const session = newSession("", eventsOfMachine(machine));
  if (!session.ok || !sessionWith(session.value, [event]).ok) throw new Error("the logbook takes it");
  addEvents(machine, [event]);
  return event;
}

const lineOf = ({ id }: LogEvent) => {
  const line = good(historyPage(machine)).log.find((one) => one.id === id);
  if (line === undefined) throw new Error("it stands in the history");
  return line;
};
const takenBack = ({ id }: LogEvent) => {
  const written = good(takeEntryBack({ machine, event: id, by: "" }));
  addEvents(machine, written);
  return written;
};
const toolNamed = (id: string) => {
  const { instruments, objects } = good(toolsPage(machine));
  const found = [...instruments, ...objects].find((tool) => tool.id === id);
  if (found === undefined) throw new Error(`${id} is a tool`);
  return found;
};
const stated = () => {
  const session = sessionOf(machine);
  if (!session.ok) throw new Error("the logbook reads");
  return session.value.timeline.machine;
};

describe("leaves of the user's own", () => {
  it("are the ones whose next leaf is filled in and whose sums are taken", () => {
    const { leaves, words } = good(leafList({ kind: "feeler-leaves", text: "0,03 0,07; 0,20", largestStack: 2 }));
    expect(words).toBe("Leaves: 3 of 0.03 to 0.20 mm; stacks up to 0.27 mm.");
    add("instrument-added", { instrument: { id: "mine", kind: "feeler-leaves", figures: { leaves } } });
    const next = (goes: string) => nextLeaf({ machine, instrument: "mine", goes, unit: "mm" });
    expect([next("0.03"), next("0.07"), next("0.20"), next("0.27")]).toEqual(["0.07", "0.10", "0.23", ""]);
    const setup = { check: "gap-under-beam", instrument: "mine", objects: { block: "oak-block" } };
    const read = (text: string) =>
      readOne({
        machine,
        into: { ...setup, options: {}, conditions: {} },
        station: "front left",
        text,
        unit: "mm",
        again: null,
        by: "",
      });
    expect(read("0.25")).toMatchObject({ ok: false, told: [{ code: "leaves-cannot-make" }] });
    expect(read("0.03+0.07+0.20")).toMatchObject({ ok: false, told: [{ code: "stack-not-allowed" }] });
    expect(good(read("0.20")).events.at(-1)).toMatchObject({ goes: 0.2, doesNotGo: 0.23 });
  });

  it("are shown as they are typed again when they are corrected, in the unit engraved on them", () => {
    const { leaves, markedIn } = good(leafList({ kind: "feeler-leaves", text: "1.5 2 3 thou", largestStack: 3 }));
    add("instrument-added", { instrument: { id: "mine", kind: "feeler-leaves", markedIn, figures: { leaves } } });
    expect(toolNamed("mine")).toMatchObject({
      name: "feeler leaves, 3 of 1.5 to 3 thou",
      texts: { leaves: "1.5 2 3 thou", "leaves stack": "3" },
    });
  });

  it("are refused with what is wrong in the list", () => {
    const list = (text: string) => leafList({ kind: "feeler-leaves", text, largestStack: 3 });
    expect(list("0.05 0.05")).toMatchObject({ ok: false, told: [{ code: "leaf-listed-twice" }] });
    expect(good(list("")).leaves.leavesMm).toHaveLength(20);
  });
});

describe("a tool that is put away", () => {
  it("is offered for no new run, still has its readings, and is taken out again as it was", () => {
    const before = toolNamed("leaves");
    const readings = good(historyPage(machine)).dates.length;
    const put = (because: string | null) =>
      addEvents(machine, good(putToolAway({ machine, tool: "leaves", because, by: "" })));
    const offered = () => good(checkPage(machine, { check: "gap-under-beam" }, null)).instruments.map(({ id }) => id);
    expect(offered()).toContain("leaves");
    put("Bent.");
    expect(offered()).not.toContain("leaves");
    expect(toolNamed("leaves").putAway).toBe("Bent.");
    expect(good(historyPage(machine)).dates).toHaveLength(readings);
    put(null);
    expect(offered()).toContain("leaves");
    expect(toolNamed("leaves")).toEqual(before);
  });
});

describe("what is taken back where it stands in the history", () => {
  it("is a tool that was new: it is put away, and that is taken back too", () => {
    const added = add("instrument-added", { instrument: { id: "mine", kind: "feeler-leaves" } });
    expect(lineOf(added).takeBack).toBe("by anybody");
    const [away] = takenBack(added) as [LogEvent];
    expect(toolNamed("mine").putAway).toBe("Added by mistake.");
    expect(lineOf(added).takeBack).toBeNull();
    takenBack(away);
    expect(toolNamed("mine").putAway).toBeNull();
  });

  it("is the correction of a tool: what was stated before counts again", () => {
    const statement = { id: "mine", kind: "feeler-leaves", name: "my leaves" };
    add("instrument-added", { instrument: statement });
    const corrected = add("instrument-added", { instrument: { ...statement, figures: { settingMm: 0.5 } } });
    expect(takenBack(corrected)).toMatchObject([{ kind: "instrument-added", instrument: statement }]);
    expect(toolNamed("mine").stated).toEqual(statement);
  });

  it("is a description, by the owner: the one before counts again, and the name stays", () => {
    const first = events.find(({ kind }) => kind === "machine-described") as LogEvent;
    expect(lineOf(first).takeBack).toBeNull();
    const { x, y, z } = stated().travelMm;
    const machineNow = { ...stated(), name: "Another name", travelMm: { x, y: y + 20, z } };
    const described = add("machine-described", { machine: machineNow });
    expect(lineOf(described).takeBack).toBe("by the owner");
    takenBack(described);
    expect(stated()).toMatchObject({ name: "Another name", travelMm: { x, y, z } });
  });

  it("is a move, which has then never been", () => {
    const move = add("move-made", { adjuster: "beam.right", amount: 0.1 });
    expect(lineOf(move).takeBack).toBe("by anybody");
    expect(takenBack(move)[0]).toMatchObject({ kind: "move-undone", move: move.id });
    expect(lineOf(move)).toMatchObject({ takeBack: null, words: expect.stringContaining("It is taken back.") });
  });
});
