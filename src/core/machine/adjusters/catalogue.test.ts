import { describe, expect, it } from "vitest";
import { bridge, gantry } from "../../../../tests/drawings/drawings.ts";
import { machineFromDescription } from "../machine.ts";
import { adjustersOf } from "./catalogue.ts";
import { letterOf } from "./draft.ts";

const ids = (machine = gantry) => adjustersOf(machine).map(({ id }) => id);

describe("the adjusters of a machine", () => {
  it("come in a fixed order, each under a name of its own", () => {
    for (const machine of [gantry, bridge]) expect(new Set(ids(machine)).size).toBe(ids(machine).length);
    expect(ids()).toEqual([
      ...["rail.left.front", "rail.left.rear", "rail.right.front", "rail.right.rear"],
      ...["frame.stagger", "frame.toe", "beam.left", "beam.right", "gantry.offset"],
      ...["slide.side", "slide.packing", "mount.side", "mount.packing", "play.x", "play.y", "play.z"],
      ...["bed.front.left", "bed.front.right", "bed.rear.left", "bed.rear.right", "bed.turn"],
      ...["steps.x", "steps.y", "steps.z", "bed.skim"],
    ]);
    expect(ids(bridge)).toEqual(
      ids()
        .filter((id) => !id.startsWith("frame."))
        .map((id) => (id === "gantry.offset" ? "bridge.yaw" : id)),
    );
  });

  it("have letters in their order, without those that look like figures", () => {
    for (const machine of [gantry, bridge]) {
      const all = adjustersOf(machine);
      expect(all.map(({ letter }) => letter)).toEqual(all.map((_, i) => letterOf(i)));
    }
    const letters = Array.from({ length: 60 }, (_, i) => letterOf(i));
    expect(new Set(letters).size).toBe(60);
    expect(letters.join("")).not.toMatch(/[IO]/);
  });

  it("move only what is a mode of the machine", () => {
    for (const machine of [gantry, bridge]) {
      for (const { effect, frees, leaves = {} } of adjustersOf(machine)) {
        for (const mode of [effect, frees, leaves].flatMap(Object.keys))
          expect(machine.parameterIndex.has(mode)).toBe(true);
      }
    }
  });

  it("have their screws within the machine", () => {
    for (const machine of [gantry, bridge]) {
      const { xL, xR, Ly, details } = machine.dimensions;
      const reach = Ly + machine.dimensions.b;
      for (const { fasteners, id } of adjustersOf(machine)) {
        for (const [x, y, z] of fasteners.places) {
          expect([id, x >= Math.min(xL, details.bedMm.left) - 40, x <= Math.max(xR, details.bedMm.right) + 40]).toEqual(
            [id, true, true],
          );
          expect([id, Math.abs(y - Ly / 2) < reach, z > -80, z < 400]).toEqual([id, true, true, true]);
        }
      }
    }
  });

  it("say for every joint that is opened what to hold or to mind", () => {
    for (const { fasteners, whatHolds } of adjustersOf(gantry)) {
      if (fasteners.places.length > 0) expect(whatHolds.cautions.length).toBeGreaterThanOrEqual(3);
      for (const sentence of [...whatHolds.cautions, whatHolds.alsoLoose ?? "None."])
        expect(sentence).toMatch(/^[A-Z].*\.$/);
    }
  });

  it("tell in words whatever a joint lets go", () => {
    for (const machine of [gantry, bridge]) {
      for (const { frees, whatHolds } of adjustersOf(machine)) {
        if (Object.keys(frees).length > 0) expect(whatHolds.alsoLoose).not.toBeNull();
      }
    }
  });
});

describe("what an owner knows better", () => {
  it("takes the place of what is usual, and leaves the rest as it is", () => {
    const changes = new Map([
      ["beam.left", { range: [-0.2, 0.3] as const, sd: 0.01, minutes: 9 }],
      ["frame.toe", { available: false }],
    ]);
    const changed = adjustersOf(gantry, changes);
    const usual = adjustersOf(gantry);
    changed.forEach((one, i) => {
      if (one.id === "beam.left") expect(one).toEqual({ ...usual[i], range: [-0.2, 0.3], sd: 0.01, minutes: 9 });
      // A move that was made there once keeps its meaning: the adjuster stays in the list, and letters stay theirs.
      else if (one.id === "frame.toe") expect(one).toEqual({ ...usual[i], available: false });
      else expect(one).toEqual(usual[i]);
    });
  });
});

describe("what sets the beam square", () => {
  it.each([
    [{}, "home switch"],
    [{ squaresOnStops: true }, "front stop"],
    [{ motorsOnY: 1 as const }, "belt's clamp"],
    [
      { motorsOnY: 1 as const, drives: { ...gantry.dimensions.details.drives, y: { kind: "screw" as const } } },
      "coupling",
    ],
  ])("with %j is named by its screws: %s", (details, words) => {
    const machine = machineFromDescription({ ...gantry.description, details });
    expect(adjustersOf(machine).find(({ id }) => id === "gantry.offset")!.fasteners.words).toContain(words);
  });
});
