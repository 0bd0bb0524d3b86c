import { describe, expect, it } from "vitest";
import { workedMachine } from "../../../tests/simulation/simulate.ts";
import { nominalState } from "../machine/machine.ts";
import { solidMachine } from "./solids.ts";

describe.each(["moving-gantry", "fixed-bridge"] as const)("a %s in space", (layout) => {
  const machine = workedMachine(layout);

  it("has every part as a solid with rings of the same length, the beam cut across where it bends", () => {
    const { nominal, estimate } = solidMachine(machine, null);
    expect(estimate).toBeNull();
    expect(nominal.map(({ name }) => name)).toEqual(expect.arrayContaining(["beam", "rail", "spindle", "bed"]));
    for (const { rings } of nominal) for (const ring of rings) expect(ring).toHaveLength(rings[0].length);
    expect(nominal.find(({ name }) => name === "beam")?.rings.length).toBeGreaterThan(2);
  });

  it("is drawn where it should be when it has no errors", () => {
    const { nominal, estimate } = solidMachine(machine, nominalState(machine));
    estimate?.forEach(({ rings }, s) => {
      rings.forEach((ring, r) => {
        ring.forEach((place, p) => {
          place.forEach((value, axis) => {
            expect(value).toBeCloseTo(nominal[s].rings[r][p][axis], 6);
          });
        });
      });
    });
  });

  it("raises the beam's right end where it stands high, by the error times the factor", () => {
    const state = nominalState(machine);
    state[machine.parameterIndex.get("beam.right") as number] += 0.3;
    const { nominal, estimate, exaggeration } = solidMachine(machine, state);
    const at = nominal.findIndex(({ name }) => name === "beam");
    const lift = (ring: number) =>
      (estimate?.[at].rings.at(ring)?.[0][2] ?? 0) - (nominal[at].rings.at(ring)?.[0][2] ?? 0);
    expect(lift(-1) - lift(0)).toBeGreaterThan(0.2 * exaggeration.factor);
  });
});
