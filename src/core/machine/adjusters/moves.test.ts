import { describe, expect, it } from "vitest";
import { exactWayMm } from "../../../../tests/drawings/exact-way.ts";
import type { MachineDescription } from "../description.ts";
import { poseAt } from "../joint.ts";
import { bedHeightAt, placeOnMember, valuesOnly } from "../kinematics.ts";
import { type Machine, machineFromDescription, nominalState } from "../machine.ts";
import { adjustersOf } from "./catalogue.ts";
import { handWayMm } from "./direction.ts";

const gantryDescription: MachineDescription = {
  name: "Worked machine",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 500, z: 70 },
  railPlanesMm: { left: -90, right: 690 },
  wheelbaseMm: 140,
  beamCentreMm: 105,
  toolFromBeamMm: -75,
};
const bridgeDescription: MachineDescription = {
  name: "Worked bridge",
  layout: "fixed-bridge",
  travelMm: { x: 400, y: 350, z: 80 },
  railPlanesMm: { left: -60, right: 460 },
  wheelbaseMm: 200,
  beamCentreMm: 125,
  toolFromBeamMm: -75,
};
const unevenBed = { bedMm: { left: -120, right: 640, front: -30, rear: 590 } };

const machines: readonly (readonly [string, Machine])[] = [
  ["gantry", machineFromDescription(gantryDescription)],
  ["bridge", machineFromDescription(bridgeDescription)],
  [
    "gantry with its tool behind the beam",
    machineFromDescription({ ...gantryDescription, toolFromBeamMm: 75, details: unevenBed }),
  ],
  ["bridge with an uneven bed", machineFromDescription({ ...bridgeDescription, details: unevenBed })],
];

const cases = machines.flatMap(([name, machine]) =>
  adjustersOf(machine)
    .filter(({ moves }) => moves !== null)
    .flatMap((adjuster) =>
      [0.4, -0.4].map((amount) => ({ name: `${name}, ${adjuster.id}, ${amount}`, machine, adjuster, amount })),
    ),
);

describe("what a person sees moving", () => {
  it.each(cases)("$name: the exact model takes the place the stated way by the hand's way", (one) => {
    const { machine, adjuster, amount } = one;
    const way = exactWayMm(machine, adjuster, amount);
    expect(way / (Math.sign(amount) * handWayMm(adjuster.moves!, amount))).toBeCloseTo(1, 2);
  });

  it("goes along a unit vector", () => {
    for (const { adjuster } of cases) expect(Math.hypot(...adjuster.moves!.along)).toBe(1);
  });
});

describe("packing behind the upper screws", () => {
  it.each(machines)("%s: pushes the top away from the beam, to the side on which the tool is", (_, machine) => {
    const packed = adjustersOf(machine).filter(({ packing }) => packing === "top or bottom");
    expect(packed.map(({ id }) => id)).toEqual(["slide.packing", "mount.packing"]);
    for (const { moves } of packed) expect(moves!.along).toEqual([0, Math.sign(machine.dimensions.ty), 0]);
  });
});

describe("a corner of the bed", () => {
  it.each(machines)("%s: rises alone", (_, machine) => {
    const corners = adjustersOf(machine).filter(({ readAgain }) => readAgain?.group === "bed");
    expect(corners).toHaveLength(4);
    for (const lifted of corners) {
      const state = nominalState(machine);
      for (const [mode, perUnit] of Object.entries(lifted.effect)) state[machine.parameterIndex.get(mode)!] = perUnit;
      for (const corner of corners) {
        const [x, y] = corner.moves!.place;
        expect(bedHeightAt(valuesOnly(machine, state), x, y).value).toBeCloseTo(corner === lifted ? 1 : 0, 9);
      }
    }
  });
});

describe("a machine that squares itself on its stops", () => {
  it("turns its beam with them by as much as one rail is pushed", () => {
    const machine = machineFromDescription({ ...gantryDescription, details: { squaresOnStops: true } });
    const stagger = adjustersOf(machine).find(({ id }) => id === "frame.stagger")!;
    const state = nominalState(machine);
    for (const [mode, perUnit] of Object.entries(stagger.effect)) state[machine.parameterIndex.get(mode)!] = perUnit;
    const [left, right] = [machine.dimensions.xL, machine.dimensions.xR].map(
      (x) => placeOnMember(valuesOnly(machine, state), "beam", [x, 75, 105], poseAt(0, 0, 0)).y.value,
    );
    expect(right! - left!).toBeCloseTo(1, 4);
  });
});
