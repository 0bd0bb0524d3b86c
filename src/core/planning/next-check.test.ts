import { describe, expect, it } from "vitest";
import { learntMachine, taken } from "../../../tests/simulation/expected-information.ts";
import {
  drawTruth,
  type PlannedRun,
  plannedTimeline,
  simulateReadings,
  workedMachine,
} from "../../../tests/simulation/simulate.ts";
import { simulatedInstruments } from "../../../tests/simulation/workshop.ts";
import { fitToMeasureRound } from "../checks/catalogue.ts";
import type { Gate } from "../findings/gate.ts";
import { type Estimate, estimateTimeline } from "../fit/estimate.ts";
import type { Timeline } from "../fit/timeline.ts";
import type { Machine } from "../machine/machine.ts";
import { createRandom } from "../numerics/random.ts";
import { demandFromGeneralWish } from "../work/catalogue.ts";
import type { Demand, DemandWish } from "../work/demand.ts";
import { judgeDemands } from "../work/judge.ts";
import { nextChecks } from "./next-check.ts";
import type { NextAnswer, NextCheck, NextQuestion } from "./next-check-answer.ts";
import { standingOf } from "./next-check-deciding.ts";
import { instrumentVerdicts } from "./next-check-instruments.ts";

const passed: Gate = { passed: true, checks: [] };
const tram: DemandWish = { kind: "tram", sizes: {}, limit: 0.1 };
const depth: DemandWish = { kind: "depth-spread", sizes: {}, limit: 0.25 };
const diagonals: DemandWish = { kind: "diagonals", sizes: {}, limit: 0.3 };
const playOfX: DemandWish = { kind: "play", sizes: { axis: "x" }, limit: 0.1 };
const runout: DemandWish = { kind: "runout", sizes: {}, limit: 0.08 };

const drawer = new Map(
  ["square", "straightedge", "block", "cutter"].map((family) => [
    family,
    { id: family, kind: family, family, name: family, priors: {} },
  ]),
) as unknown as Timeline["objects"];

/** A machine of which only these runs have been read, as a random truth makes them. */
function readMachine(machine: Machine, plan: readonly PlannedRun[], families?: readonly string[]): Timeline {
  const blank = { ...plannedTimeline(machine, plan), objects: drawer };
  const { estimate } = { estimate: estimateTimeline(machine, blank) };
  const random = createRandom(11);
  const read = simulateReadings(estimate.problem, drawTruth(estimate.problem, random), random);
  const instruments = families
    ? new Map(families.map((family) => [family, simulatedInstruments[family]]))
    : read.instruments;
  return { ...read, instruments };
}

function made(machine: Machine, wish: DemandWish): Demand {
  const demand = demandFromGeneralWish(machine, wish);
  if (!demand.ok) throw new Error(wish.kind);
  return demand.value;
}

function question(estimate: Estimate, wishes: readonly DemandWish[], more: Partial<NextQuestion> = {}): NextQuestion {
  const { state } = standingOf(estimate, more.willSkim ?? false);
  const demands = wishes.map((wish) => made(estimate.problem.machine, wish));
  return { estimate, gate: passed, demands: judgeDemands(state, demands, 2000).results, ...more };
}

function checksOf(answer: NextAnswer): readonly NextCheck[] {
  if (answer.kind !== "check") throw new Error(answer.kind);
  return answer.next;
}

const idOf = ({ run }: NextCheck) => run.check.id;

describe.each(["moving-gantry", "fixed-bridge"] as const)("what to measure next on a %s", (layout) => {
  const machine = workedMachine(layout);
  // One reading that has to do with none of the demands: the machine is as good as unread.
  const unread = estimateTimeline(machine, readMachine(machine, [{ check: "runout" }]));

  it("is the tram sweep at five places where tram is asked and nothing is known", () => {
    const [first] = checksOf(nextChecks(question(unread, [tram])));
    expect(idOf(first)).toBe("tram-sweep");
    expect(first.run.check.stations(first.run.setup)).toHaveLength(20);
    const [served] = first.serves;
    expect(served.standardUncertaintyNow).toBeGreaterThan(5 * served.demand.limit);
    expect(served.standardUncertaintyAfter).toBeLessThan(served.demand.limit / 3);
    expect(first.reason).toMatch(
      /^It settles whether cutter’s axis to the bed over 200 stays within 0\.1 mm, now known to ± \S+ and then to ± \S+ mm\.$/,
    );
  });

  it("is still the tram sweep where the demands of a whole trial are asked and the lengths have been read", () => {
    const estimate = estimateTimeline(machine, readMachine(machine, [{ check: "hole-rectangle" }]));
    const lean: DemandWish = { kind: "plunge-lean", sizes: { depthMm: 40 }, limit: 0.06 };
    const [first] = checksOf(nextChecks(question(estimate, [depth, lean, tram, diagonals])));
    expect(idOf(first)).toBe("tram-sweep");
  });

  it("looks through a demand that is decided", () => {
    const both = nextChecks(question(unread, [tram, runout]));
    // Runout was read four times to a hundredth.
    expect(checksOf(both).flatMap(({ serves }) => serves.map(({ demand }) => demand.kind))).not.toContain("runout");
    const decided = nextChecks(question(unread, [runout]));
    expect(decided).toMatchObject({ kind: "you know enough", undecided: [] });
  });

  it("is nothing for a demand whose last doubt is no longer worth the minutes", () => {
    const estimate = estimateTimeline(machine, readMachine(machine, [{ check: "turnaround", options: { axis: "X" } }]));
    const value = estimate.state[machine.parameterIndex.get("backlash.x") as number];
    // The limit lies where the play is: no reading by this dial will ever tell in from out.
    const answer = nextChecks(question(estimate, [{ ...playOfX, limit: value + 0.001 }]));
    expect(answer).toMatchObject({ kind: "you know enough", undecided: [{ kind: "play" }] });
    if (answer.kind === "you know enough") expect(answer.reason).toContain("Play of X lies so close to its limit");
  });

  it("shows at most three, best first, and no two that look at the same thing", () => {
    const next = checksOf(nextChecks(question(unread, [tram, depth, diagonals, playOfX])));
    expect(next).toHaveLength(3);
    const rates = next.map(({ gain, minutes }) => gain / minutes);
    expect([...rates].sort((a, b) => b - a)).toEqual(rates);
    const looks = next.map(({ run }) => `${run.check.id} ${run.setup.options.axis} ${run.setup.options.towards}`);
    expect(new Set(looks).size).toBe(3);
    for (const { serves, reason, run, minutes } of next) {
      expect(minutes).toBe(run.check.words.minutes);
      expect(serves.length).toBeGreaterThan(0);
      expect(reason).toMatch(/^It (settles whether|brings a decision nearer on whether) .+[^.]\.$/);
      for (const { standardUncertaintyNow, standardUncertaintyAfter } of serves)
        expect(standardUncertaintyAfter).toBeLessThan(standardUncertaintyNow);
    }
  });

  it("is the same whenever it is asked, and whatever the order of the demands", () => {
    const ask = (wishes: readonly DemandWish[]) =>
      checksOf(nextChecks(question(unread, wishes))).map(({ run, gain }) => [run.check.id, run.setup.options, gain]);
    expect(ask([tram, depth, diagonals])).toEqual(ask([tram, depth, diagonals]));
    const turned = ask([diagonals, depth, tram]);
    ask([tram, depth, diagonals]).forEach(([id, options, gain], i) => {
      expect(turned[i].slice(0, 2)).toEqual([id, options]);
      expect(turned[i][2] as number).toBeCloseTo(gain as number, 9);
    });
  });

  it("takes of two ways that are worth the same the one that comes first in the catalogue", () => {
    // A square that nobody knows stands as well on this side as on that.
    const lean: DemandWish = { kind: "plunge-lean", sizes: { depthMm: 40 }, limit: 0.3 };
    const families = ["test indicator"];
    const estimate = estimateTimeline(machine, readMachine(machine, [{ check: "runout" }], families));
    const sweeps = checksOf(nextChecks(question(estimate, [lean]))).filter((next) => idOf(next) === "upright-sweep");
    expect(sweeps.length).toBeGreaterThan(0);
    for (const { run } of sweeps) expect(run.setup.options.square).toBe("right or rear");
  });

  it("looks at the plane of motion where the bed will be skimmed", () => {
    const asItIs = checksOf(nextChecks(question(unread, [tram])));
    const skimmed = checksOf(nextChecks(question(unread, [tram], { willSkim: true })));
    expect(asItIs.map(idOf)[0]).toBe("tram-sweep");
    // Passes side by side show the axis against the motion, and the bed has no part in them.
    expect(skimmed.map(idOf)[0]).toBe("pass-ridges");
    const flat = nextChecks(question(unread, [depth], { willSkim: true }));
    expect(flat.kind).toBe("you know enough");
  });

  it("is what moves will leave undecided where a plan is asked about", () => {
    // Racked so far that diagonals are surely out; a plan would bring them to the edge of the limit.
    const estimate = estimateTimeline(machine, readMachine(machine, [{ check: "hole-rectangle" }]));
    const rack = machine.parameterIndex.get(layout === "moving-gantry" ? "gantry.rack" : "bridge.yaw") as number;
    const { state } = standingOf(estimate, false);
    const at = (value: number) => {
      const moved = Float64Array.from(state.scene.state);
      moved[rack] += value;
      return { ...state, scene: { ...state.scene, state: moved } };
    };
    const demand = made(machine, { ...diagonals, limit: 0.05 });
    const slope = demand.samples(state.scene)[0].gradient[rack];
    const value = demand.samples(state.scene)[0].value;
    const planned = at((0.05 - value) / slope);
    const judge = (where: typeof state) => judgeDemands(where, [demand], 2000).results;
    const far = at((5 - value) / slope);
    const out = nextChecks({ estimate, gate: passed, demands: judge(far), planned: far });
    expect(out).toMatchObject({ kind: "you know enough", undecided: [] });
    expect(nextChecks({ estimate, gate: passed, demands: judge(planned), planned }).kind).not.toBe("you know enough");
  });
});

it.each(["moving-gantry", "fixed-bridge"] as const)(
  "what is said next, done and read, comes to an end on a %s",
  (layout) => {
    let learnt = learntMachine(layout, 2);
    const wishes: readonly DemandWish[] = [
      { ...tram, limit: 0.4 },
      { ...depth, limit: 0.6 },
      playOfX,
      { ...runout, limit: 0.1 },
    ];
    const random = createRandom(2);
    const done: string[] = [];
    for (;;) {
      const asked = question(learnt.estimate, wishes);
      const answer = nextChecks(asked);
      if (answer.kind !== "check") {
        expect(answer.kind).toBe("you know enough");
        for (const { open } of instrumentVerdicts(asked)) expect(["nothing", "close"]).toContain(open);
        break;
      }
      const [{ run }] = answer.next;
      done.push(run.check.id);
      expect(done.length, done.join(", ")).toBeLessThan(8);
      learnt = taken(learnt, run, `step ${done.length}`, random);
    }
    expect(done).toContain("tram-sweep");
  },
);

describe("before anything is believed", () => {
  const machine = workedMachine("moving-gantry");
  const round = fitToMeasureRound(machine);

  it("the short round is what to do on a machine that nobody has read, with what the user has", () => {
    const empty = readMachine(machine, [], ["feeler", "rule"]);
    const answer = nextChecks(question(estimateTimeline(machine, empty), [tram]));
    if (answer.kind !== "short round") throw new Error(answer.kind);
    expect(answer.conditions.map(({ id }) => id)).toEqual(round.map(({ id }) => id));
    expect(answer.runs.map(({ check, setup }) => [check.id, setup.instrument.family, setup.options])).toEqual([
      ["gap-under-beam", "feeler", {}],
      ["stop-gaps", "feeler", {}],
      ["turnaround", "feeler", { axis: "X" }],
      ["turnaround", "feeler", { axis: "Y" }],
      ["tram-sweep", "feeler", {}],
      ["hole-rectangle", "rule", { marks: "pricks" }],
    ]);
    expect(answer.without).toEqual([]);
    const bare = nextChecks(question(estimateTimeline(machine, readMachine(machine, [], [])), [tram]));
    if (bare.kind !== "short round") throw new Error(bare.kind);
    expect(bare.runs).toEqual([]);
    expect(bare.without.map(({ id }) => id)).toContain("tram-sweep");
  });

  it("a reading that was withdrawn is none", () => {
    const read = readMachine(machine, [{ check: "runout" }]);
    const readings = read.readings.map((reading) => ({ ...reading, withdrawn: "a slip" }));
    expect(nextChecks(question(estimateTimeline(machine, { ...read, readings }), [tram])).kind).toBe("short round");
  });

  it("what has not been passed of the fit-to-measure round comes before every other check", () => {
    const estimate = estimateTimeline(machine, readMachine(machine, [{ check: "runout" }]));
    const states = round.map(
      (check, i) => ({ check, state: i === 1 ? "failed" : i === 2 ? "not done" : "passed", where: [] }) as const,
    );
    const answer = nextChecks(question(estimate, [tram], { gate: { passed: false, checks: states } }));
    if (answer.kind !== "fit to measure") throw new Error(answer.kind);
    expect(answer.open.map(({ check }) => check.id)).toEqual([round[1].id, round[2].id]);
  });

  it("a machine that is still being built is asked only what its stage allows", () => {
    const estimate = estimateTimeline(machine, readMachine(machine, [{ check: "frame-diagonals" }]));
    const gate = { passed: false, checks: round.map((check) => ({ check, state: "not done", where: [] }) as const) };
    const answer = nextChecks(question(estimate, [tram], { gate, stage: "gantry on rails" }));
    if (answer.kind !== "fit to measure") throw new Error(answer.kind);
    const asked = answer.open.map(({ check }) => check.words.stage);
    expect(new Set(asked)).toEqual(new Set(["bare frame", "gantry on rails"]));
  });
});

describe("what somebody's instruments can decide", () => {
  const machine = workedMachine("moving-gantry");
  const kinds = Object.values(simulatedInstruments) as unknown as NonNullable<NextQuestion["kinds"]>;
  const ask = (families: readonly string[], wish: DemandWish) => {
    const estimate = estimateTimeline(machine, readMachine(machine, [{ check: "home-repeat" }], families));
    const [verdict] = instrumentVerdicts(question(estimate, [wish], { kinds }));
    return { verdict, estimate };
  };

  it("is told with the check that does it", () => {
    const { verdict } = ask(["dial"], tram);
    expect(verdict).toMatchObject({
      decides: true,
      would: null,
      open: "unread",
    });
    expect(verdict.sentence).toMatch(
      /^Cutter’s axis to the bed \(tram\) \(dial; 15 min\) settles it: known to ± \S+ now, and to ± \S+ mm then\.$/,
    );
    expect(verdict.by.map(({ check }) => check.id)).toEqual(["tram-sweep"]);
    expect(verdict.standardUncertaintyAfter).toBeLessThan(tram.limit / 3);
  });

  it("is what is read next where it does, however little that is worth for its minutes", () => {
    const read = [
      ...[{ check: "level-ride" }, { check: "gap-under-beam" }, { check: "bed-touch" }],
      ...[
        { check: "turnaround", options: { axis: "Z" } },
        { check: "upright-sweep", objects: { square: "square" } },
      ],
    ];
    const families = ["feeler", "dial", "level", "touch plate"];
    // So wide that it is nearly surely within, and still not known to a third of it.
    const wide = { ...tram, limit: 2.96 };
    const answer = nextChecks(
      question(estimateTimeline(machine, readMachine(machine, read, families)), [wide], { kinds }),
    );
    if (answer.kind !== "check") throw new Error(answer.kind);
    expect(answer.next[0]).toMatchObject({ gain: 0, serves: [{ settles: true }] });
    expect(answer.next[0].reason).toMatch(/^Cutter’s axis to the bed.*settles it/);
  });

  it("is told not to be enough, with the instrument of the catalogue that would be", () => {
    const { verdict } = ask(["rule"], tram);
    expect(verdict.decides).toBe(false);
    expect(verdict.standardUncertaintyAfter).toBeGreaterThan(tram.limit / 3);
    expect(verdict.would?.lacks).toHaveLength(1);
    expect(["dial", "test indicator", "feeler"]).toContain(verdict.would?.lacks[0]);
    expect(verdict.sentence).toMatch(
      /^Nothing that you have tells more of it than ± \S+, and the limit is 0\.1 mm; with .+ it can be decided, by .+ \d+ min\): ± \S+ mm then\.$/,
    );
  });

  it("is told to be enough for no one where no instrument listed is", () => {
    const { verdict, estimate } = ask(["rule"], { ...runout, limit: 0.004 });
    expect(verdict).toMatchObject({ decides: false, would: null });
    expect(verdict.sentence).toContain("no instrument listed can decide it either");
    const answer = nextChecks(question(estimate, [{ ...runout, limit: 0.02 }], { kinds }));
    if (answer.kind !== "no instrument") throw new Error(answer.kind);
    expect(answer.reason).toBe(
      "Nothing that you have tells more of runout, and what is known of it decides nothing yet.",
    );
    expect(answer.verdicts.map(({ would }) => would?.lacks)).toEqual([["test indicator"]]);
  });

  it("is told to be no question of instruments where the next homing leaves too much to chance", () => {
    const { verdict } = ask(Object.keys(simulatedInstruments), { ...diagonals, limit: 0.08 });
    expect(verdict).toMatchObject({ decides: false, would: null });
    expect(verdict.beyondReading).toBeGreaterThan(0.08 / 3);
    expect(verdict.sentence).toMatch(
      /^No reading decides it: the next homing leaves ± \S+ to chance, and the limit is 0\.08 mm\.$/,
    );
  });

  it("takes both leans where one is not enough, and asks for no more where enough is known", () => {
    const lean: DemandWish = { kind: "plunge-lean", sizes: { depthMm: 40 }, limit: 0.3 };
    const { verdict } = ask(["test indicator"], lean);
    expect(verdict.by.map(({ check, setup }) => `${check.id} ${setup.options.towards}`)).toEqual(
      expect.arrayContaining(["upright-sweep side", "upright-sweep fore"]),
    );
    const known = learntMachine("moving-gantry", 9);
    const [enough] = instrumentVerdicts(question(known.estimate, [{ ...tram, limit: 5 }]));
    expect(enough).toMatchObject({ decides: true, by: [], sentence: "It is known well enough as it is." });
  });
});
