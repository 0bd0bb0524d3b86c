import { describe, expect, it } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { sdOf, timelineOf } from "../../../tests/simulation/small-timeline.ts";
import { checkById } from "../checks/catalogue.ts";
import type { GeometricCheck, Setup } from "../checks/check.ts";
import type { Entry } from "../instruments/entry.ts";
import { adjustersOf } from "../machine/adjusters/catalogue.ts";
import { valuesOnly } from "../machine/kinematics.ts";
import { type Machine, nominalState } from "../machine/machine.ts";
import { estimateTimeline } from "./estimate.ts";
import { adjustersForTimeline, slipsOf } from "./hand-scatter.ts";
import { stationFromKey } from "./station-key.ts";
import type { Happening, Run, Timeline } from "./timeline.ts";

type Gauge = Partial<Record<"loose" | "nipped" | "final", number>>;

interface Place {
  readonly adjuster: string;
  readonly check: string;
  readonly station: string;
  readonly instrument: string;
  readonly options?: Run["options"];
}

const tramFore: Place = {
  adjuster: "mount.packing",
  check: "tram-sweep",
  station: "centre, front",
  instrument: "dial",
};
const beamRight: Place = {
  adjuster: "beam.right",
  check: "gap-under-beam",
  station: "front right",
  instrument: "dial",
};

const value = (number: number | undefined): Entry | null =>
  number === undefined ? null : { form: "value", value: number };

/** Moves by nothing, each with what the gauge showed, all in one run. */
function gauged(machine: Machine, place: Place, gauges: readonly Gauge[]): Timeline {
  const { adjuster, check, station, instrument, options } = place;
  const happenings = gauges.map(
    ({ loose, nipped, final }, n): Happening => ({
      kind: "moved",
      id: `m${n}`,
      at: 1000 + n,
      adjuster,
      amount: 0,
      gauge: { run: "run 0", station, loose: value(loose), nipped: value(nipped), final: value(final) },
    }),
  );
  const run = { check, at: 0, instrument, ...(options && { options }), readings: [] };
  return timelineOf(machine, [run], happenings);
}

/** What the gauge reads with the adjuster out by an amount on a machine that is true otherwise. */
function shown(machine: Machine, { adjuster, check, station, options = {} }: Place, amount: number): number {
  const setup: Setup = { machine, options, instrument: null };
  const geometric = checkById(check) as GeometricCheck;
  const state = nominalState(machine);
  const { effect } = adjustersOf(machine).find(({ id }) => id === adjuster)!;
  for (const [mode, perUnit] of Object.entries(effect)) {
    state[machine.parameterIndex.get(mode) as number] += perUnit * amount;
  }
  const at = stationFromKey(geometric, setup, station)!;
  return geometric.predict(valuesOnly(machine, state), at, setup, () => ({ value: 0, gradient: new Float64Array(0) }))
    .value;
}

const sdOfAdjuster = (machine: Machine, timeline: Timeline, id: string) =>
  adjustersForTimeline(machine, timeline).find((adjuster) => adjuster.id === id)!.sd;

describe.each(["moving-gantry", "fixed-bridge"] as const)("what hands leave to chance on a %s", (layout) => {
  const machine = workedMachine(layout);
  const usual = (id: string) => adjustersOf(machine).find((adjuster) => adjuster.id === id)!.sd;
  const places: readonly Place[] = [
    beamRight,
    tramFore,
    { ...tramFore, adjuster: "slide.packing" },
    { ...tramFore, adjuster: "slide.side", station: "centre, right" },
    { adjuster: "rail.left.rear", check: "gap-under-beam", station: "rear left", instrument: "dial" },
    { adjuster: "bed.rear.right", check: "bed-touch", station: "x=350 y=300", instrument: "touch plate" },
  ];

  it.each(places)("is seen by $check at $station as so much of $adjuster, with its sign", (place) => {
    for (const out of [3, -3].map((times) => times * usual(place.adjuster))) {
      const timeline = gauged(machine, place, [
        { nipped: shown(machine, place, 0), final: shown(machine, place, out) },
      ]);
      const slips = slipsOf(machine, timeline, adjustersOf(machine));
      expect(slips).toHaveLength(1);
      expect(slips[0].amount / out).toBeCloseTo(1, 2);
    }
  });

  it("is as usual where no gauge was read", () => {
    for (const { id, sd } of adjustersOf(machine))
      expect(sdOfAdjuster(machine, gauged(machine, beamRight, [{}]), id)).toBe(sd);
    expect(sdOfAdjuster(machine, gauged(machine, beamRight, [{ final: 0.5 }]), "beam.right")).toBe(usual("beam.right"));
  });

  it("grows with the scatter that the gauge shows, shrinks without any, and leaves other adjusters alone", () => {
    const scattering = (size: number) =>
      gauged(
        machine,
        beamRight,
        [1, -1, 1, -1, 1, -1].map((sign) => ({ nipped: 0.5, final: 0.5 + sign * size })),
      );
    const sds = [0, 0.03, 0.06, 0.12].map((size) => sdOfAdjuster(machine, scattering(size), "beam.right"));
    expect(sds[0]).toBeCloseTo(Math.sqrt((4 * 0.03 ** 2) / 10), 9);
    for (let i = 1; i < sds.length; i++) expect(sds[i]).toBeGreaterThan(sds[i - 1]);
    expect(sdOfAdjuster(machine, scattering(0.12), "beam.left")).toBe(usual("beam.left"));
  });

  it("counts a slip between loose and nipped as a quarter of one", () => {
    const perMm = shown(machine, beamRight, 1) - shown(machine, beamRight, 0);
    const sd = sdOfAdjuster(
      machine,
      gauged(machine, beamRight, [{ loose: 0.5, nipped: 0.6, final: 0.6 }]),
      "beam.right",
    );
    expect(sd).toBeCloseTo(Math.sqrt((4 * 0.03 ** 2 + 0.25 * (0.1 / perMm) ** 2) / 5.25), 4);
    const whole = sdOfAdjuster(machine, gauged(machine, beamRight, [{ loose: 0.5, final: 0.6 }]), "beam.right");
    expect(whole).toBeCloseTo(Math.sqrt((4 * 0.03 ** 2 + (0.1 / perMm) ** 2) / 5), 4);
  });

  it("is not told by a gauge that hardly sees the joint, nor by a run or a reading that was withdrawn", () => {
    const blind = gauged(machine, { ...beamRight, adjuster: "steps.x" }, [{ nipped: 0.5, final: 0.6 }]);
    expect(slipsOf(machine, blind, adjustersOf(machine))).toEqual([]);
    const far = { ...beamRight, adjuster: "mount.side" };
    expect(slipsOf(machine, gauged(machine, far, [{ nipped: 0.5, final: 0.6 }]), adjustersOf(machine))).toEqual([]);
    const timeline = gauged(machine, beamRight, [{ nipped: 0.5, final: 0.9 }]);
    const withdrawnRun = { ...timeline, runs: timeline.runs.map((run) => ({ ...run, withdrawn: "slip" })) };
    expect(slipsOf(machine, withdrawnRun, adjustersOf(machine))).toEqual([]);
    const reading = (withdrawn: string | null) => ({
      ...timeline,
      readings: [
        { id: "r", run: "run 0", at: 2000, station: "front right", entries: [value(0.9)!] as const, withdrawn },
      ],
    });
    expect(slipsOf(machine, reading(null), adjustersOf(machine))).toHaveLength(1);
    expect(slipsOf(machine, reading("slip"), adjustersOf(machine))).toEqual([]);
  });

  it("follows what the user says of the run and of the adjuster", () => {
    const timeline = gauged(machine, beamRight, [{ nipped: 5, final: 5.5 }]);
    const inTenths = { ...timeline, runs: timeline.runs.map((run) => ({ ...run, factor: 0.1 })) };
    expect(slipsOf(machine, inTenths, adjustersOf(machine))[0].amount).toBeCloseTo(
      slipsOf(machine, timeline, adjustersOf(machine))[0].amount / 10,
      9,
    );
    const own = { ...gauged(machine, beamRight, []), adjusterChanges: new Map([["beam.right", { sd: 0.01 }]]) };
    expect(sdOfAdjuster(machine, own, "beam.right")).toBe(0.01);
  });

  it("bears on the moves that come later, and on none before", () => {
    const wild = [1, -1, 1, -1].map((sign) => ({ nipped: 0.5, final: 0.5 + sign * 0.3 }));
    const known = gauged(machine, beamRight, wild);
    const move = (at: number): Happening => ({ kind: "moved", id: "last", at, adjuster: "beam.right", amount: 0.1 });
    // The moves themselves are left out of the fit: what counts is the one more.
    const doubt = (at: number) => {
      const all = { ...known, happenings: [...known.happenings, move(at)] };
      return sdOf(estimateTimeline(machine, all), "beam.right") ** 2;
    };
    const without = sdOf(estimateTimeline(machine, known), "beam.right") ** 2;
    expect(Math.sqrt(doubt(500) - without)).toBeCloseTo(usual("beam.right"), 6);
    expect(Math.sqrt(doubt(5000) - without)).toBeCloseTo(sdOfAdjuster(machine, known, "beam.right"), 6);
  });
});
