import { beforeEach, describe, expect, it } from "vitest";
import { demonstrationEvents as events } from "../../../tests/stories/demonstration-events.ts";
import { good } from "../../../tests/stories/good-answer.ts";
import type { LogEvent } from "../../logbook/events.ts";
import { concernsOf } from "./concerns.ts";
import { addEvents, assessmentOf, forgetMachine } from "./held.ts";
import { adjusterPage, changeAdjuster, movesBoard, noteMove, takeMoveBack } from "./move-pages.ts";
import { thingsToDo } from "./next-thing.ts";
import type { Answer } from "./protocol.ts";
import type { AmountMade, GaugeRead, MoveNoted } from "./protocol-moves.ts";

const machine = "00000000000000000000000000000001";

beforeEach(() => {
  forgetMachine(machine);
  addEvents(machine, events, true);
});

const codes = (answer: Answer<unknown>) => (answer.ok ? [] : answer.told.map(({ code }) => code));

function asked(adjuster: string, made: AmountMade, gauge: GaugeRead | null = null) {
  return { machine, adjuster, made, planned: null, leaves: null, gauge, by: "" };
}

function noted(adjuster: string, made: AmountMade, gauge: GaugeRead | null = null): MoveNoted {
  const value = good(noteMove(asked(adjuster, made, gauge)));
  addEvents(machine, value.events);
  return value;
}

const amountIn = ({ events: made }: MoveNoted) => {
  const move = made.find((event) => event.kind === "move-made");
  return move?.kind === "move-made" ? move.amount : Number.NaN;
};

const rear: GaugeRead = {
  into: "run-10",
  station: "rear right",
  unit: "mm",
  loose: "",
  nipped: "",
  final: "0.50/0.55",
  other: null,
};

describe("a move that is noted on the page", () => {
  it("goes by the way of the hand and where to: for a part that turns, over its length", () => {
    expect(amountIn(noted("beam.right", { kind: "way", text: "0,25", sign: 1 }))).toBeCloseTo(0.25, 9);
    expect(amountIn(noted("slide.side", { kind: "way", text: "0.24", sign: -1 }))).toBeCloseTo(-2, 9);
  });

  it("goes by its leaves where leaves were laid or taken out, behind the top screws or the bottom ones", () => {
    const rail = noted("rail.left.front", { kind: "leaves", laid: "0.3 0.05", takenOut: "", sign: 1 });
    expect(amountIn(rail)).toBeCloseTo(0.35, 9);
    expect(rail.sentences.join(" ")).toContain("0.35 mm lie there now");
    expect(amountIn(noted("slide.packing", { kind: "leaves", laid: "0.1x2", takenOut: "", sign: -1 }))).toBeCloseTo(
      -0.2,
      9,
    );
  });

  it("goes by the number that stands in the controller", () => {
    const assessed = assessmentOf(machine);
    if (!assessed.ok) throw new Error("the demonstration reads");
    const { machine: body, estimate } = assessed.value;
    const scale = estimate.state[body.parameterIndex.get("scale.y") as number];
    const { asks } = good(adjusterPage(machine, "steps.y"));
    expect(asks).toEqual({ kind: "steps", now: "80" });
    const amount = amountIn(noted("steps.y", { kind: "steps", text: "80.08" }));
    expect(amount).toBeCloseTo(0.001 * (1000 + scale), 6);
  });

  it("carries its last reading as one of the run that goes on, and says how it sits", () => {
    const move = noted("beam.right", { kind: "way", text: "0.1", sign: 1 }, rear);
    expect(move.events.map(({ kind }) => kind)).toEqual(["move-made", "reading-taken"]);
    expect(move.reading?.words).toMatch(/^The last reading/);
  });

  it("is taken back whole, with the reading that went with it", () => {
    const move = noted("beam.right", { kind: "way", text: "0.1", sign: 1 }, rear);
    const back = good(takeMoveBack({ machine, move: move.move, by: "" }));
    expect(back.map(({ kind }) => kind)).toEqual(["move-undone", "reading-withdrawn"]);
    addEvents(machine, back);
    expect(good(movesBoard(machine)).done).toEqual([]);
  });

  it("is not told that a run has shifted, though its first station reads another number after it", () => {
    const first = { ...rear, station: "front left", final: "0.70/0.75" };
    noted("beam.left", { kind: "way", text: "0.1", sign: 1 }, first);
    const assessed = assessmentOf(machine);
    if (!assessed.ok) throw new Error("the demonstration reads");
    expect(assessed.value.trust.runs.filter(({ returned }) => returned !== null)).toEqual([]);
    expect(
      thingsToDo(assessed.value, null)
        .things.map(({ title }) => title)
        .join(),
    ).not.toContain("Take anew");
    expect(concernsOf(assessed.value).map(({ kind }) => kind)).not.toContain("returned");
  });

  it("of a home is proved by readings after a homing, which is noted with it and taken back with it", () => {
    const pricks = { check: "hole-rectangle", instrument: "rule-with-loupe", objects: {}, conditions: {} };
    const gauge: GaugeRead = {
      ...{ into: { ...pricks, options: { marks: "pricks" } }, station: "falling" },
      ...{ unit: "mm", loose: "", nipped: "", final: "683.5" },
      other: { station: "rising", text: "683.6", isBefore: false },
    };
    const move = noted("gantry.offset", { kind: "way", text: "1.9", sign: -1 }, gauge);
    expect(move.events.map(({ kind }) => kind)).toEqual([
      ...["run-begun", "move-made", "homed", "reading-taken", "reading-taken"],
    ]);
    const back = good(takeMoveBack({ machine, move: move.move, by: "" }));
    expect(back.map(({ kind }) => kind)).toEqual([
      ...["move-undone", "happening-withdrawn", "reading-withdrawn", "reading-withdrawn"],
    ]);
    expect(noted("gantry.offset", { kind: "way", text: "1.9", sign: -1 }).events).toHaveLength(1);
  });

  describe("whose proof takes two readings of a run begun for it", () => {
    const sweep = { check: "tram-sweep", instrument: "dial", objects: {}, options: {}, conditions: {} };
    const proof = (isBefore: boolean): GaugeRead => ({
      ...{ into: sweep, station: "centre, right", unit: "mm", loose: "", nipped: "", final: "0.12" },
      other: { station: isBefore ? "centre, right" : "centre, left", text: "0.05", isBefore },
    });

    it.each([
      [
        "behind the move where they are held against one another",
        false,
        ["run-begun", "move-made", "reading-taken", "reading-taken"],
      ],
      [
        "on either side of it where one is held against how it stood",
        true,
        ["run-begun", "reading-taken", "move-made", "reading-taken"],
      ],
    ] as const)("keeps both, %s, and takes both back with it", (_, isBefore, kinds) => {
      const move = noted("slide.side", { kind: "way", text: "0.24", sign: -1 }, proof(isBefore));
      expect(move.events.map(({ kind }) => kind)).toEqual(kinds);
      // The first of them has said where the zero lies, so the second has something to be held against.
      expect(move.reading?.fits).not.toBe("new");
      const back = good(takeMoveBack({ machine, move: move.move, by: "" }));
      expect(back.map(({ kind }) => kind)).toEqual(["move-undone", "reading-withdrawn", "reading-withdrawn"]);
    });

    it("is refused where only the one is read that the other is held against, or a place is none", () => {
      const made = { kind: "way", text: "0.24", sign: -1 } as const;
      const half = { ...proof(false), final: "" };
      expect(codes(noteMove(asked("slide.side", made, half)))).toEqual(["gauge-unread"]);
      const nowhere = { ...proof(false), other: { station: "roof", text: "0.05", isBefore: false } };
      expect(codes(noteMove(asked("slide.side", made, nowhere)))).toEqual(["station-unknown"]);
    });
  });

  it.each([
    ["letters", "beam.right", { kind: "way", text: "lots", sign: 1 }, "number-not-readable"],
    ["further than it goes", "beam.right", { kind: "way", text: "9", sign: 1 }, "amount-out-of-reach"],
    ["a leaf that is none", "rail.left.front", { kind: "leaves", laid: "thin", takenOut: "", sign: 1 }, "word-form"],
    [
      "more than lies there",
      "rail.left.front",
      { kind: "leaves", laid: "", takenOut: "0.3", sign: 1 },
      "amount-out-of-reach",
    ],
    ["no leaf at all", "rail.left.front", { kind: "leaves", laid: "", takenOut: "", sign: 1 }, "amount-missing"],
    ["a number below nothing", "steps.y", { kind: "steps", text: "-80" }, "word-form"],
    ["a place that is none", "roof", { kind: "none" }, "adjuster-unknown"],
  ] as const)("is refused with %s, and nothing of it is kept", (_, adjuster, made, code) => {
    expect(codes(noteMove(asked(adjuster, made)))).toContain(code);
  });

  it("is a skim where the bed was planed", () => {
    expect(noted("bed.skim", { kind: "none" }).events.map(({ kind }) => kind)).toEqual(["skimmed"]);
  });
});

describe("a place where the machine can be changed", () => {
  it("asks for an amount in words of the hand, never as a bare plus or minus", () => {
    for (const { id } of good(movesBoard(machine)).places) {
      const { asks, drawing, fastening } = good(adjusterPage(machine, id));
      expect(drawing).toContain("<svg");
      expect(fastening.length).toBeGreaterThan(0);
      if (asks.kind === "way")
        expect([asks.plus, asks.minus].join(" ")).toMatch(/^(to the \w+|up|down) (to the \w+|up|down)$/);
      if (asks.kind === "leaves") expect(asks.places.every(({ words }) => words.length > 4)).toBe(true);
    }
  });

  it("takes how far it goes from where it stands, and that it is not there, and is there again", () => {
    const place = () => good(movesBoard(machine)).places.find(({ id }) => id === "slide.side");
    const change = (figures: { plus: string; minus: string } | { available: boolean }) =>
      addEvents(machine, good(changeAdjuster({ machine, adjuster: "slide.side", figures, by: "" })));
    change({ plus: "0.6", minus: "0.24" });
    expect(place()).toMatchObject({ reach: "−2 to +5 mm/m", available: true });
    change({ available: false });
    expect(place()?.available).toBe(false);
    change({ available: true });
    expect(place()).toMatchObject({ reach: "−2 to +5 mm/m", available: true });
  });

  it("has what is asked for a plan as open until it has been said", () => {
    const board = () => good(movesBoard(machine));
    expect(board()).toMatchObject({
      work: { isAsked: false, chosen: "general" },
      skim: { isAsked: false, will: null },
    });
    addEvents(machine, [
      {
        v: 1,
        id: "01a0705d-ffff-7000-8000-000000000001",
        at: "2026-12-01T09:00:00Z",
        kind: "skim-decided",
        will: null,
      },
      {
        v: 1,
        id: "01a0705d-ffff-7000-8000-000000000002",
        at: "2026-12-01T09:00:01Z",
        kind: "work-chosen",
        kindOfWork: "inlay",
      },
    ] as unknown as readonly LogEvent[]);
    expect(board()).toMatchObject({ work: { isAsked: true, chosen: "inlay" }, skim: { isAsked: true, will: null } });
  });
});

describe("the cautions of a place", () => {
  const places = () => good(movesBoard(machine)).places.map(({ id }) => good(adjusterPage(machine, id)));

  it("begin with the plug and the cutter wherever a hand goes in", () => {
    const withHandsIn = places().filter(({ cautions }) => cautions.some((caution) => /plug/.test(caution)));
    expect(withHandsIn.length).toBeGreaterThan(10);
    for (const { cautions } of withHandsIn) expect(cautions[0]).toMatch(/^Pull the plug and take the cutter out/);
  });

  it("speak of a joint only where one is opened", () => {
    for (const { place, fastening, meanwhile } of places()) {
      const words = meanwhile.join(" ");
      const opens = !/no joint is opened|nothing is loosened|no screw/i.test(fastening.join(" "));
      if (!opens) expect(words, place.id).not.toMatch(/joint|screws/);
    }
    for (const id of ["steps.y", "play.x"].filter((id) => places().some(({ place }) => place.id === id)))
      expect(good(adjusterPage(machine, id)).meanwhile, id).toEqual([]);
    expect(good(adjusterPage(machine, "beam.right")).meanwhile.join(" ")).toMatch(/fine line across the joint/);
  });
});
