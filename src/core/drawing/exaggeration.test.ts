import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { poseAt } from "../machine/joint.ts";
import { placeOnMember, tip, valuesOnly } from "../machine/kinematics.ts";
import { type Machine, machineFromDescription, nominalState } from "../machine/machine.ts";
import { chooseExaggeration, displacementsAt, exaggerated, factors } from "./exaggeration.ts";
import { type Place, partsOfMachine } from "./machine-parts.ts";
import { machineSheet, sheetExaggeration } from "./machine-sheet.ts";

const description = {
  name: "Worked machine",
  layout: "moving-gantry",
  travelMm: { x: 600, y: 500, z: 70 },
  railPlanesMm: { left: -90, right: 690 },
  wheelbaseMm: 140,
  beamCentreMm: 105,
  toolFromBeamMm: -75,
} as const;
const gantry = machineFromDescription(description);
const bridge = machineFromDescription({
  ...description,
  name: "Worked bridge",
  layout: "fixed-bridge",
  wheelbaseMm: 200,
});
const pose = poseAt(200, 300, 25);
const views = ["plan", "front", "right"] as const;

describe("displacements on the drawing", () => {
  it("are those of the exact model, member by member", () => {
    const state = withModes(gantry, {
      "gantry.rack": 2,
      "beam.crown": 0.3,
      "slide.lean.side": 3,
      "rail.left.rear": 0.4,
    });
    const displacement = displacementsAt(gantry, state, pose);
    for (const member of ["rails", "beam", "carriage", "slide", "spindle"] as const) {
      const place: Place = [310, 345, 120];
      const real = placeOnMember(valuesOnly(gantry, state), member, place, pose);
      const off = displacement(member, place);
      expect(off[0]).toBeCloseTo(real.x.value - place[0], 12);
      expect(off[1]).toBeCloseTo(real.y.value - place[1], 12);
      expect(off[2]).toBeCloseTo(real.z.value - place[2], 12);
    }
  });

  it("leave scale and play out", () => {
    const state = withModes(gantry, { "scale.x": 5, "scale.y": 5, "scale.z": 5, "backlash.x": 0.4, "grid.scale.x": 2 });
    expect(displacementsAt(gantry, state, pose)("spindle", [200, 300, 25])).toEqual([0, 0, 0]);
  });

  it("put the rails where the gantry's feet find them", () => {
    const state = withModes(gantry, {
      "rail.left.front": 0.4,
      "rail.right.front": 0.4,
      "rail.left.rear": 0.4,
      "rail.right.rear": 0.4,
    });
    const displacement = displacementsAt(gantry, state, pose);
    expect(displacement("left rail", [-90, 300, -25])[2]).toBeCloseTo(0.4, 12);
    expect(displacement("rails", [-90, 375, -25])[2]).toBeCloseTo(0.4, 9);
  });

  it("show a moving table from the floor: its own rails lift the bed and not the bridge", () => {
    const state = withModes(bridge, {
      "rail.left.front": 0.3,
      "rail.left.rear": 0.3,
      "rail.right.front": 0.3,
      "rail.right.rear": 0.3,
    });
    const displacement = displacementsAt(bridge, state, pose);
    expect(displacement("bed", [300, 250, 0])[2]).toBeCloseTo(0.3, 9);
    expect(displacement("beam", [300, 375, 105])[2]).toBe(0);
    // In the work frame, which is glued to the table, the same readings say that the tool is low.
    expect(tip(valuesOnly(bridge, state), pose).z.value).toBeCloseTo(25 - 0.3, 9);
  });
});

describe("the factor of the drawing", () => {
  it("is the largest of the series for which no part is turned by 15° or moved by a fifth of its view", () => {
    // 15° is 267.9 mm/m of yaw: 2 mm/m are drawn 100 times (0.2) and not 200 times (0.4).
    const parts = partsOfMachine(gantry.dimensions, pose);
    const yaw = displacementsAt(gantry, withModes(gantry, { "gantry.rack": 2 }), pose);
    expect(chooseExaggeration(parts, yaw, views)).toEqual({ factor: 100, tooFarOut: false });
  });

  it("keeps a yaw of 2 mm/m under 15° as turned, not merely as a slope", () => {
    const parts = partsOfMachine(gantry.dimensions, pose);
    const state = withModes(gantry, { "gantry.rack": 2 });
    const displacement = displacementsAt(gantry, state, pose);
    const { factor } = chooseExaggeration(parts, displacement, views);
    const ends = [-90, 690].map((x) => exaggerated([x, 375, 105], displacement("beam", [x, 375, 105]), factor));
    const turned = (Math.atan2(ends[1][1] - ends[0][1], ends[1][0] - ends[0][0]) * 180) / Math.PI;
    expect(turned).toBeGreaterThan(7);
    expect(turned).toBeLessThan(15);
  });

  it("falls back to 5, with a word about it, when even that breaks the rules", () => {
    const sheet = {
      machine: gantry,
      state: withModes(gantry, { "gantry.rack": 80 }),
      readings: "none",
      date: "2026-03-14",
    };
    expect(sheetExaggeration(sheet)).toEqual({ factor: 5, tooFarOut: true });
    expect(machineSheet(sheet)).toContain("too far out to draw larger");
    expect(machineSheet(sheet)).toContain("errors 5 : 1");
  });

  it("is the largest for a machine that is as it should be", () => {
    const parts = partsOfMachine(gantry.dimensions, pose);
    expect(chooseExaggeration(parts, displacementsAt(gantry, nominalState(gantry), pose), views).factor).toBe(1000);
  });

  // Sizes from a third of what is usual to twenty times that: a machine nobody has assembled carefully, and worse.
  it("never grows when every error grows", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
          minLength: gantry.modes.length,
          maxLength: gantry.modes.length,
        }),
        fc.double({ min: 0.3, max: 10, noNaN: true }),
        (draws, size) => {
          const parts = partsOfMachine(gantry.dimensions, pose);
          const factorAt = (k: number) => {
            const state = nominalState(gantry);
            gantry.modes.forEach(({ priorSd }, i) => {
              state[i] = draws[i] * priorSd * k;
            });
            return chooseExaggeration(parts, displacementsAt(gantry, state, pose), views).factor;
          };
          expect(factors).toContain(factorAt(size));
          expect(factorAt(2 * size)).toBeLessThanOrEqual(factorAt(size));
        },
      ),
      { seed: 20_260_314, numRuns: 40 },
    );
  });
});

function withModes(machine: Machine, modes: Readonly<Record<string, number>>): Float64Array {
  const state = nominalState(machine);
  for (const [mode, value] of Object.entries(modes)) state[machine.parameterIndex.get(mode)!] = value;
  return state;
}
