import { describe, expect, it } from "vitest";
import { fullCatalogue, plannedTimeline, workedGantry, workedMachine } from "../../../tests/simulation/simulate.ts";
import { simulatedInstruments } from "../../../tests/simulation/workshop.ts";
import { geometricChecks } from "../checks/catalogue.ts";
import { optionOf } from "../checks/check.ts";
import { stages } from "../checks/check-words.ts";
import type { Timeline } from "../fit/timeline.ts";
import type { Instrument, InstrumentKind } from "../instruments/instrument.ts";
import type { MeasuringObject } from "../instruments/object.ts";
import { machineFromDescription } from "../machine/machine.ts";
import { possibleRuns, type RunInReach } from "./possible-runs.ts";

const plain = workedMachine("moving-gantry");
const printed = machineFromDescription({ ...workedGantry, details: { gridPitchMm: 50 } });
const objectsOf = (...families: readonly string[]) =>
  new Map(
    families.map((family) => [family, { id: family, kind: family, family, name: family, priors: {} }]),
  ) as unknown as Timeline["objects"];
const everything = objectsOf("square", "straightedge", "block", "cutter");

function workshop(families: readonly string[], objects = everything, machine = plain): Timeline {
  const instruments = new Map(families.map((family) => [family, simulatedInstruments[family]]));
  return { ...plannedTimeline(machine, []), instruments, objects };
}

const all = Object.keys(simulatedInstruments);
const kinds = Object.values(simulatedInstruments) as unknown as readonly InstrumentKind[];
const named = ({ check, setup }: RunInReach) => `${check.id} ${setup.instrument.family}`;

describe("runs that could be taken", () => {
  it("are of every check of the catalogue in a full workshop", () => {
    for (const layout of ["moving-gantry", "fixed-bridge"] as const) {
      const machine = machineFromDescription({ ...workedMachine(layout).description, details: { gridPitchMm: 50 } });
      const ids = new Set(possibleRuns(machine, workshop(all, everything, machine)).own.map(({ check }) => check.id));
      for (const check of geometricChecks) expect(ids.has(check.id), check.id).toBe(check.layouts.includes(layout));
    }
  });

  it("are of every variant that a simulated evening knows", () => {
    const { own } = possibleRuns(printed, workshop(all, everything, printed));
    for (const { check, options = {} } of fullCatalogue()) {
      const found = own.some(
        (run) =>
          run.check.id === check &&
          Object.entries(options).every(([key, answer]) => optionOf(run.check, run.setup, key) === answer),
      );
      expect(found, `${check} ${JSON.stringify(options)}`).toBe(true);
    }
  });

  it("look at a square from both sides, with the stem on the side of its body", () => {
    const sweeps = possibleRuns(plain, workshop(all)).own.filter(({ check }) => check.id === "upright-sweep");
    expect(sweeps.map(({ setup }) => [setup.options.towards, setup.options.stem, setup.options.square])).toEqual([
      ["side", "right or rear", "right or rear"],
      ["side", "left or front", "left or front"],
      ["fore", "right or rear", "right or rear"],
      ["fore", "left or front", "left or front"],
    ]);
  });

  it("are taken with what reads better where two instruments read the same stations", () => {
    const tram = (families: readonly string[]) =>
      possibleRuns(plain, workshop(families))
        .own.filter(({ check }) => check.id === "tram-sweep")
        .map(named);
    expect(tram(["feeler"])).toEqual(["tram-sweep feeler"]);
    expect(tram(["feeler", "dial"])).toEqual(["tram-sweep dial"]);
    // Alike to the last digit: the usual one for the check.
    expect(tram(["test indicator", "dial"])).toEqual(["tram-sweep dial"]);
  });

  it("are taken with both where one reads better and the other farther", () => {
    const { own } = possibleRuns(plain, workshop(["calipers", "rule"]));
    const travels = own.filter(({ check, setup }) => check.id === "travel" && setup.options.axis === "X").map(named);
    expect(travels).toEqual(["travel rule", "travel calipers"]);
  });

  it("are told as lacking what the user has not got, and not as the user's own", () => {
    const runs = possibleRuns(plain, workshop(["feeler"], objectsOf("block")), { kinds });
    expect(new Set(runs.own.map(({ setup }) => setup.instrument.family))).toEqual(new Set(["feeler"]));
    expect(runs.own.every(({ lacks }) => lacks.length === 0)).toBe(true);
    expect(runs.own.some(({ check }) => check.id === "beam-upright")).toBe(false);
    const lacking = (check: string) => runs.listed.filter((run) => run.check.id === check).map(({ lacks }) => lacks);
    expect(lacking("beam-upright")[0]).toEqual(["square"]);
    expect(lacking("tram-sweep")).toEqual([["dial"], ["test indicator"]]);
    expect(lacking("upright-sweep")[0]).toEqual(["test indicator", "square"]);
  });

  it("take any offcut for a block, and the cutter that suits, with what is written on it", () => {
    const cutters = [
      { id: "mill", family: "cutter", diameterMm: 8, priors: {} },
      { id: "pointed", family: "cutter", includedAngleDeg: 60, priors: {} },
    ];
    const objects = new Map(cutters.map((object) => [object.id, object])) as unknown as Timeline["objects"];
    const { own } = possibleRuns(plain, workshop(["calipers", "feeler"], objects));
    const found = (id: string) => own.find(({ check }) => check.id === id) as RunInReach;
    expect(found("gap-under-beam").objects).toEqual({});
    expect(found("slot-width").objects).toEqual({ cutter: "mill" });
    expect(found("slot-width").setup.options.cutterMm).toBe(8);
    expect(found("groove-widths").objects).toEqual({ cutter: "pointed" });
    expect(found("groove-widths").setup.options.angle).toBe(60);
  });

  it("lean on the square that is known best", () => {
    const squares = [0.2, 0.01, 0.2].map((sd, i) => ({
      id: `square ${i}`,
      family: "square",
      priors: { square: { mean: 0, sd } },
    }));
    const objects = new Map(squares.map((o) => [o.id, o as unknown as MeasuringObject]));
    const { own } = possibleRuns(plain, workshop(["dial"], objects));
    for (const run of own.filter(({ check }) => check.roles.includes("square")))
      expect(run.objects).toEqual({ square: "square 1" });
  });

  it("wait for the stage of the machine that they need", () => {
    for (const stage of stages) {
      const { own } = possibleRuns(printed, workshop(all, everything, printed), { stage });
      const late = own.filter(({ check }) => stages.indexOf(check.words.stage) > stages.indexOf(stage));
      expect(late.map(named)).toEqual([]);
    }
    const bare = possibleRuns(plain, workshop(all), { stage: "bare frame" }).own.map(({ check }) => check.id);
    expect(new Set(bare)).toEqual(new Set(["square-flip", "frame-diagonals", "rail-spacing", "rail-wind"]));
  });

  it("read against a print only where there is one", () => {
    const readsPrint = (timeline: Timeline, machine = plain) =>
      possibleRuns(machine, timeline).own.some(({ check }) => check.id === "line-along-x");
    const timeline = workshop(all);
    expect(readsPrint(timeline)).toBe(false);
    expect(readsPrint(timeline, printed)).toBe(true);
    const lines = plannedTimeline(plain, [{ check: "line-along-y", atMs: 1000 }]);
    expect(readsPrint({ ...timeline, runs: lines.runs })).toBe(true);
    const skimmed = (at: number): Timeline => ({ ...timeline, happenings: [{ kind: "skimmed", id: "s", at }] });
    expect(readsPrint(skimmed(500), printed)).toBe(false);
    expect(readsPrint({ ...skimmed(2000), runs: lines.runs }, printed)).toBe(false);
    expect(readsPrint({ ...skimmed(500), runs: lines.runs })).toBe(true);
  });

  it("are none where the instrument reaches no station", () => {
    const short = { ...(simulatedInstruments.calipers as Instrument), rangeMm: { from: 0, to: 10 } } as Instrument;
    const timeline = { ...workshop([]), instruments: new Map([["short", short]]) };
    expect(possibleRuns(plain, timeline).own.filter(({ check }) => check.id === "travel")).toEqual([]);
  });
});
