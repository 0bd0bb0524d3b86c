import { describe, expect, test } from "vitest";
import { centralDifferences, disagreement, randomState } from "../../../tests/simulation/random-state.ts";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { simulatedInstruments } from "../../../tests/simulation/workshop.ts";
import { stationFromKey } from "../fit/station-key.ts";
import type { Instrument } from "../instruments/instrument.ts";
import type { LayoutId } from "../machine/description.ts";
import type { Scene } from "../machine/kinematics.ts";
import { type Machine, machineFromDescription, nominalState } from "../machine/machine.ts";
import type { Dual } from "../numerics/dual.ts";
import { createRandom, type Random } from "../numerics/random.ts";
import { geometricChecks } from "./catalogue.ts";
import { type GeometricCheck, type Setup, type Station, usualEntries } from "./check.ts";

const layouts: readonly LayoutId[] = ["moving-gantry", "fixed-bridge"];
const cases = layouts.flatMap((layout) =>
  geometricChecks.filter((check) => check.layouts.includes(layout)).map((check) => [check.id, layout, check] as const),
);

describe.each(cases)("%s on a %s", (id, layout, check) => {
  const machine = workedMachine(layout);
  const count = machine.parameters.length;

  test("predicts with the gradient of central differences over modes, homing and its own unknowns", () => {
    const random = createRandom(31).fork(`${id} ${layout}`);
    for (const setup of everySetup(machine, check)) {
      const stations = check.stations(setup);
      expect(stations.length).toBeGreaterThan(0);
      for (const station of stations) {
        const keys = check.unknowns(setup, station).map(({ key }) => key);
        const at = Float64Array.of(...randomState(machine, random), ...drawUnknowns(check, setup, station, random));
        const found = predicted(check, setup, station, machine, at, keys, at.length);
        const differences = centralDifferences(
          (values) => predicted(check, setup, station, machine, values, keys, 0).value,
          at,
        );
        expect(found.gradient).toHaveLength(at.length);
        expect(found.value).toBe(predicted(check, setup, station, machine, at, keys, 0).value);
        expect(disagreement(found.gradient, differences)).toBeLessThan(2e-6);
      }
    }
  });

  test("predicts with the gradient of central differences on a skimmed bed, over the state of the skim too", () => {
    const random = createRandom(32).fork(`${id} ${layout}`);
    const setup: Setup = { machine, options: {}, instrument: null };
    for (const station of check.stations(setup).slice(0, 3)) {
      const keys = check.unknowns(setup, station).map(({ key }) => key);
      const at = Float64Array.of(
        ...randomState(machine, random),
        ...randomState(machine, random),
        ...drawUnknowns(check, setup, station, random),
      );
      const found = predicted(check, setup, station, machine, at, keys, at.length, count);
      const differences = centralDifferences(
        (values) => predicted(check, setup, station, machine, values, keys, 0, count).value,
        at,
      );
      // The slope of a skimmed surface is taken as constant over the small way that a change of state moves the place.
      expect(disagreement(found.gradient, differences)).toBeLessThan(3e-4);
    }
  });

  test("reads nothing on a machine without slips, or what was left free on purpose", () => {
    const nominal = nominalState(machine);
    for (const setup of everySetup(machine, check)) {
      for (const station of check.stations(setup)) {
        const keys = check.unknowns(setup, station).map(({ key }) => key);
        const at = Float64Array.of(...nominal, ...keys.map(() => 0));
        // The gap under a beam is all its height over the bed until a block fills it.
        const expected = id === "gap-under-beam" ? machine.dimensions.zu : 0;
        expect(predicted(check, setup, station, machine, at, keys, 0).value).toBeCloseTo(expected, 9);
      }
    }
  });

  test("has one key for each station, and finds each again by its key", () => {
    for (const setup of everySetup(machine, check)) {
      const stations = check.stations(setup);
      expect(new Set(stations.map(({ key }) => key)).size).toBe(stations.length);
      for (const station of stations) expect(stationFromKey(check, setup, station.key)).toEqual(station);
    }
  });

  test("leans only on unknowns with a scope, a finite prior, and a role that it names", () => {
    for (const setup of everySetup(machine, check)) {
      for (const station of check.stations(setup)) {
        for (const unknown of check.unknowns(setup, station)) {
          expect(Number.isFinite(unknown.mean) && unknown.sd > 0 && Number.isFinite(unknown.sd)).toBe(true);
          if (unknown.scope === "object") expect(check.roles).toContain(unknown.role);
        }
        for (const touch of check.touches?.(setup, station) ?? []) {
          expect([touch.x, touch.y, touch.weight].every(Number.isFinite)).toBe(true);
        }
      }
    }
  });

  test("predicts the same at a place of the user's own and when that place is read back from its key", () => {
    if (!check.stationAt) return;
    const random = createRandom(33).fork(`${id} ${layout}`);
    const { Lx, Ly, Lz } = machine.dimensions;
    for (const setup of everySetup(machine, check)) {
      const own = check.stationAt(setup, [0.3 * Lx, 0.4 * Ly, 0.5 * Lz]) as Station;
      const again = stationFromKey(check, setup, own.key) as Station;
      const keys = check.unknowns(setup, own).map(({ key }) => key);
      const at = Float64Array.of(...randomState(machine, random), ...drawUnknowns(check, setup, own, random));
      const { value } = predicted(check, setup, own, machine, at, keys, 0);
      expect(Number.isFinite(value)).toBe(true);
      expect(predicted(check, setup, again, machine, at, keys, 0).value).toBeCloseTo(value, 9);
    }
  });
});

describe.each(cases)("%s on a %s of any size", (_id, layout, check) => {
  test.each([
    [200, 150, 50],
    [300, 200, 40],
    [600, 500, 70],
    [1500, 1000, 120],
  ])("stays on the travel and the bed of %d × %d × %d", (x, y, z) => {
    const described = { ...workedMachine(layout).description, travelMm: { x, y, z } };
    const machine = machineFromDescription({ ...described, railPlanesMm: { left: -90, right: x + 90 } });
    const onRails = ["frame-diagonals", "rail-spacing", "rail-wind", "stop-gaps"].includes(check.id);
    for (const setup of everySetup(machine, check)) {
      for (const station of check.stations(setup)) {
        for (const place of [station.at, ...(station.to ? [station.to] : [])]) {
          const reach = check.id === "ring-diameters" ? Number(setup.options.radiusMm ?? 60) : 0;
          expect(place[0] - reach).toBeGreaterThanOrEqual(0);
          expect(place[0] + reach).toBeLessThanOrEqual(x);
          expect(place[1] - reach).toBeGreaterThanOrEqual(0);
          expect(place[1] + reach).toBeLessThanOrEqual(y);
          if (!onRails) expect(place[2]).toBeGreaterThanOrEqual(0);
          expect(place[2]).toBeLessThanOrEqual(z);
        }
      }
    }
  });
});

describe("the number of entries of a station", () => {
  const byId = new Map(geometricChecks.map((check) => [check.id, check]));
  test.each([
    ["turnaround", "feeler", 2],
    ["turnaround", "dial", 1],
    ["turnaround", null, 2],
    ["upright-gap", "feeler", 2],
    ["tram-sweep", "feeler", 1],
  ] as const)("of %s with %s is %d", (id, family, expected) => {
    const instrument = family === null ? null : simulatedInstruments[family];
    expect(usualEntries(byId.get(id) as GeometricCheck, instrument)).toBe(expected);
  });
});

/** Every answer of every option against the usual ones of the others, pairs of answers, and every instrument's family. */
function everySetup(machine: Machine, check: GeometricCheck): readonly Setup[] {
  const answersOf = (option: GeometricCheck["options"][number]): readonly (string | number)[] =>
    option.answers ?? [
      option.number?.from as number,
      ((option.number?.from as number) + (option.number?.to as number)) / 3,
    ];
  const instruments: readonly (Instrument | null)[] = [
    null,
    ...check.instruments.map((family) => simulatedInstruments[family]).filter((known) => known !== undefined),
  ];
  const options: Record<string, string | number>[] = [{}];
  check.options.forEach((option, i) => {
    for (const answer of answersOf(option)) {
      options.push({ [option.key]: answer });
      for (const other of check.options.slice(i + 1)) {
        for (const second of answersOf(other)) options.push({ [option.key]: answer, [other.key]: second });
      }
    }
  });
  const setups = [
    ...options.map((given): Setup => ({ machine, options: given, instrument: null })),
    ...instruments.map((instrument): Setup => ({ machine, options: {}, instrument })),
  ];
  // What cannot be done on this machine (a ring wider than the travel) has no stations.
  return setups.filter((setup) => check.stations(setup).length > 0);
}

function drawUnknowns(check: GeometricCheck, setup: Setup, station: Station, random: Random): readonly number[] {
  return check.unknowns(setup, station).map(({ mean, sd }) => mean + Math.min(sd, 1) * random.normal());
}

function predicted(
  check: GeometricCheck,
  setup: Setup,
  station: Station,
  machine: Machine,
  values: Float64Array,
  keys: readonly string[],
  size: number,
  skimColumn: number | null = null,
): Dual {
  const count = machine.parameters.length;
  const from = values.length - keys.length;
  const scene: Scene = {
    machine,
    state: values.subarray(0, count),
    size,
    skim:
      skimColumn === null
        ? null
        : { state: values.subarray(skimColumn, skimColumn + count), column: size > 0 ? skimColumn : 0 },
  };
  return check.predict(scene, station, setup, (key) => {
    const at = from + keys.indexOf(key);
    if (at < from) throw new Error(`${check.id} asks for ${key}, which it does not name`);
    const gradient = new Float64Array(size);
    if (size > 0) gradient[at] = 1;
    return { value: values[at], gradient };
  });
}
