import { describe, expect, it } from "vitest";
import type { MachineDescription } from "../description.ts";
import { poseAt } from "../joint.ts";
import { bedHeightAt, gridCrossing, placeOnMember, placeOverFloor, read, valuesOnly } from "../kinematics.ts";
import { type Machine, machineFromDescription, nominalState } from "../machine.ts";
import type { Adjuster } from "./adjuster.ts";
import { adjustersOf } from "./catalogue.ts";
import { handWayMm } from "./direction.ts";
import type { Place } from "./place.ts";

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
    const moves = adjuster.moves!;
    const state = nominalState(machine);
    for (const [mode, perUnit] of Object.entries(adjuster.effect)) {
      state[machine.parameterIndex.get(mode)!] = perUnit * amount;
    }
    const there = displacement(machine, state, adjuster, moves.place);
    const held = moves.heldAt ? displacement(machine, state, adjuster, moves.heldAt) : [0, 0, 0];
    const way = moves.along.reduce((sum, along, i) => sum + along * (there[i]! - held[i]!), 0);
    expect(way / (Math.sign(amount) * handWayMm(moves, amount))).toBeCloseTo(1, 2);
  });

  it("goes along a unit vector", () => {
    for (const { adjuster } of cases) expect(Math.hypot(...adjuster.moves!.along)).toBe(1);
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

/** Where the exact model takes a place of what the adjuster moves, seen from the floor, mm. */
function displacement(machine: Machine, state: Float64Array, { id, moves, stands }: Adjuster, place: Place): Place {
  const scene = valuesOnly(machine, state);
  const nominal = valuesOnly(machine, nominalState(machine));
  const { dimensions: d } = machine;
  if (moves!.member === "bed") {
    const [x, y] = place;
    const print = gridCrossing(scene, x, y);
    return [print.x.value - x, print.y.value - y, bedHeightAt(scene, x, y).value];
  }
  if (moves!.member === "frame") {
    // The frame carries the frame of reference: its own shape stands in its modes, where the rails' checks read it.
    return id === "frame.stagger"
      ? [0, read(scene, "frame.stagger").value, 0]
      : [((place[0] < d.xm ? -1 : 1) * read(scene, "rail.toe").value) / 2, 0, 0];
  }
  if (moves!.member === "rails") {
    // What rides on the rail stands with the middle between its feet over the place; a table goes against the tool.
    const y = machine.layout.id === "moving-gantry" ? place[1] + d.ty : stands[1] + d.Ly / 2 - place[1];
    const pose = poseAt(stands[0], y, stands[2]);
    const [member, over] =
      machine.layout.id === "moving-gantry"
        ? (["rails", [place[0], place[1], place[2]]] as const)
        : (["table", [place[0], d.Ly / 2, place[2]]] as const);
    const [a, b] = [scene, nominal].map((which) => placeOverFloor(which, member, over, pose));
    return [a!.x.value - b!.x.value, a!.y.value - b!.y.value, a!.z.value - b!.z.value];
  }
  // The tool's own travel is asked for at the place itself.
  const pose = moves!.member === "spindle" && id.startsWith("steps.") ? poseAt(...place) : poseAt(...stands);
  const [a, b] = [scene, nominal].map((which) => placeOnMember(which, moves!.member, place, pose));
  return [a!.x.value - b!.x.value, a!.y.value - b!.y.value, a!.z.value - b!.z.value];
}
